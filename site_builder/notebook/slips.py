"""How two words differ: made plain, so that what does not matter is gone, and in how many letters."""

from __future__ import annotations

import re
import unicodedata

_OTHER_LETTERS = str.maketrans("асеіорхуѕ", "aceiopxys")  # Cyrillic letters that look like Latin ones


def plain(word: str) -> str:
    """A word without what does not matter: capitals, quotes, accents, and which stroke or blank cuts it."""
    low = unicodedata.normalize("NFKD", word.casefold().translate(_OTHER_LETTERS))
    low = "".join(letter for letter in low if not unicodedata.combining(letter))
    return re.sub(r"[\s_‐‑‒–—-]+", "-", re.sub("[\"'“”„‘’`]", "", low)).strip("-")


def slips(one: str, other: str) -> int:
    """How many letters were dropped, added, changed or swapped with their neighbour between two words.

    The optimal string alignment distance: F. J. Damerau, "A technique for computer detection and correction of
    spelling errors", Communications of the ACM 7 (3), 1964, 171-176, each letter touched once.
    """
    before: list[int] = []
    above = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, wanted in enumerate(other, 1):
            least = min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == wanted:
                least = min(least, before[j - 2] + 1)
            row.append(least)
        before, above = above, row
    return above[-1]


def letters(word: str) -> int:
    """Which letters a word has, a bit for each; two letters may share one."""
    found = 0
    for letter in set(word):
        found |= 1 << (ord(letter) & 63)
    return found


def least_slips(one: int, other: int) -> int:
    """No fewer slips than this lie between words of these letters: each mends one letter that the other lacks."""
    return max((one & ~other).bit_count(), (other & ~one).bit_count())
