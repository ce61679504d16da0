"""Figures that were not written in figures: letters that look like digits, and numbers in words."""

from __future__ import annotations

import re

_LOOKS: dict[str, str] = {"O": "0", "o": "0", "Q": "0", "l": "1", "I": "1", "|": "1", "S": "5", "Z": "2", "B": "8"}
_ALIKE = re.compile(r"(?<!\w)(?<!\w\.)(?:[\dOoQlI|]+|\d[\dOoQlI|SZB]*)(?:\.[\dOoQlI|SZB]+)?(?!\w)(?!\.\w)")
"""A figure with such a letter in it; S, Z and B only after a digit, for they begin designations."""

_ONES = {
    "nought": 0, "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_MANY = {"dozen": 12, "hundred": 100, "thousand": 1000}
_SPLIT = re.compile(r"[^\W\d_]+|\s+|.", re.DOTALL)


def digits_meant(text: str) -> str | None:
    """The text with digits in the place of letters and number words; None where there is nothing to put right.

    ``O.05 mm`` is ``0.05 mm``, ``max l2 mm`` is ``max 12 mm``, ``one hundred and twenty-eight mm`` is ``128 mm``.
    Whether the result is a value, the reader of values must try.
    """
    meant = _ALIKE.sub(lambda found: "".join(_LOOKS.get(letter, letter) for letter in found[0]), text)
    meant = _without_words(meant)
    return meant if meant != text else None


def _without_words(text: str) -> str:
    pieces: list[str] = _SPLIT.findall(text)
    out: list[str] = []
    at = 0
    while at < len(pieces):
        read = _number(pieces, at)
        if read is None:
            out.append(pieces[at])
            at += 1
        else:
            figure, at = read
            out.append(figure)
    return "".join(out)


def _number(pieces: list[str], at: int) -> tuple[str, int] | None:
    """The number that begins here, and where it ends."""
    total = here = 0
    begun, end, half = False, at, ""
    while at < len(pieces):
        word = pieces[at].lower()
        if word in _ONES or word in _TENS:
            here += _ONES.get(word, _TENS.get(word, 0))
        elif word in _MANY and begun:
            here = (here or 1) * _MANY[word]
            if word == "thousand":
                total, here = total + here, 0
        elif begun and word == "and" and [one.lower() for one in pieces[at + 2 : at + 5 : 2]] == ["a", "half"]:
            half, end = "-1/2", at + 5
            break
        elif not begun or not (word.isspace() or word in ("-", "and")):
            break
        else:
            at += 1
            continue
        begun, at, end = True, at + 1, at + 1
    return (f"{total + here}{half}", end) if begun else None
