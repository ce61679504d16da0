"""The known word that a slip of the hand meant: letters swapped, dropped, doubled or beside the right one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache

_ALIKE = 0.7
_LONGEST = 80
"""A longer text is a sentence, not a misspelt word."""
_OTHER_LETTERS = str.maketrans("асеіорхуѕ", "aceiopxys")  # Cyrillic letters that look like Latin ones


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that was meant; empty where none comes near enough to be told."""
    return _nearest(str(word), tuple(dict.fromkeys(map(str, known))))


def slip_of(word: str, known: Iterable[str]) -> str:
    """The known word of which this one is no more than a slip of a letter or two; empty where there is none."""
    return _slip(str(word), tuple(dict.fromkeys(map(str, known))))


def nearest_named(word: str, titles: Mapping[str, str]) -> str:
    """The id that was meant by an id with a slip in it, or by the title (of a person also the first name)."""
    wanted = plain(word)
    for of_title in (plain, lambda title: plain(title.split()[0]) if title.split() else ""):
        called = [id_ for id_, title in titles.items() if of_title(title) == wanted]
        if len(called) == 1:
            return called[0]
    near = nearest(word, titles)
    if near:
        return near
    title = slip_of(word, titles.values())
    return next((id_ for id_, one in titles.items() if title and one == title), "")


def did_you_mean(near: str) -> str:
    """`Did you mean ...? ` with a blank behind it; nothing where there is nothing near."""
    return f"Did you mean `{near}`? " if near else ""


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


@lru_cache(maxsize=4096)
def _slip(word: str, known: tuple[str, ...]) -> str:
    if not word or len(word) > _LONGEST:
        return ""
    wanted = plain(word)
    by_plain = {plain(one): one for one in reversed(known)}
    if wanted in by_plain:
        return by_plain[wanted]
    near = [one for one in by_plain if abs(len(one) - len(wanted)) <= 3 and _near_enough(wanted, one)]
    return by_plain[min(near, key=lambda one: _order(wanted, one))] if near else ""


@lru_cache(maxsize=4096)
def _nearest(word: str, known: tuple[str, ...]) -> str:
    slip = _slip(word, known)
    if slip or not word or len(word) > _LONGEST:
        return slip
    wanted = plain(word)
    by_plain = {plain(one): one for one in reversed(known)}
    longer = [one for one in by_plain if one.startswith(f"{wanted}-") or one.endswith(f"-{wanted}")]
    if len(longer) == 1:
        return by_plain[longer[0]]
    alike = get_close_matches(wanted, by_plain, 1, _ALIKE)
    return by_plain[alike[0]] if alike else ""


def _near_enough(word: str, known: str) -> bool:
    count, length = slips(word, known), min(len(word), len(known))
    if length < 3:
        return count == 1 and sorted(word) == sorted(known)
    return count <= (1 if length < 5 else 2 if length < 9 else 3)


def _order(word: str, known: str) -> tuple[int, bool, bool, float, str]:
    """What comes first: the fewest slips, the same letters, the same beginning."""
    return (slips(word, known), sorted(word) != sorted(known), word[:1] != known[:1],
            -SequenceMatcher(None, word, known).ratio(), known)
