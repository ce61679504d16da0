"""How a hand slips: letters swapped, dropped or doubled, and a neighbouring key."""

from __future__ import annotations

import re
from collections.abc import Callable

Put = Callable[[re.Match[str]], str | None]


def swapped(word: str) -> str:
    """Two letters in the middle changed round."""
    for at in range(max(1, len(word) // 2 - 1), len(word) - 1):
        if word[at] != word[at + 1] and word[at : at + 2].isalpha():
            return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    return word


def dropped(word: str) -> str:
    """One letter in the middle left out."""
    at = next((n for n in range(len(word) // 2, len(word)) if word[n].isalpha()), len(word) // 2)
    return word[:at] + word[at + 1 :] if len(word) > 3 else word


def doubled(word: str) -> str:
    """One letter in the middle written twice."""
    at = next((n for n in range(len(word) // 2, len(word)) if word[n].isalpha()), len(word) // 2)
    return word[: at + 1] + word[at] + word[at + 1 :]


def capital(word: str) -> str:
    """A capital at the beginning, as names have."""
    return word[:1].upper() + word[1:]


def group(change: Callable[[str], str], number: int = 1) -> Put:
    """What matched, with one group changed; nothing where that changes nothing."""

    def put(match: re.Match[str]) -> str | None:
        start, end = match.start(number) - match.start(), match.end(number) - match.start()
        anew = change(match[number])
        return match[0][:start] + anew + match[0][end:] if anew != match[number] else None

    return put


def becomes(text: str, number: int = 1) -> Put:
    """What matched, with one group written otherwise."""
    return group(lambda _: text, number)
