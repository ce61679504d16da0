"""Codes of nine letters on paper, as ``KQF-7MB-X4R``: four for a thing, four for its wording, one to check the rest.

There is no 0, O, 1 and I among the letters. The four are the first 20 bits of a SHA-256. The last letter makes the sum
of all nine, each times its own power of 2 in the field of 32 elements (x^5 + x^2 + 1), come to nothing. No two powers
are the same, so every single wrong letter and every two letters that have changed places are found; a test tries them
all.
"""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256
from unicodedata import normalize

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""The 32 letters and figures of a code."""
PART = 4
"""So many letters stand for the thing, and as many for its wording."""

_LENGTH, _GROUP = 9, 3
_FIELD = 0b100101


class CodeProblem(Exception):
    """The code leads to nothing that it could mean; the text says why and what to do."""


def code_of(thing: Iterable[str], wording: Iterable[str]) -> str:
    """The code of a thing and its wording."""
    body = digest(thing) + digest(wording)
    letters = body + _check_letter(body)
    return "-".join(letters[at : at + _GROUP] for at in range(0, _LENGTH, _GROUP))


def letters_of(code: str) -> str:
    """The nine letters of a code, looked at one by one and together. Raises CodeProblem."""
    letters = "".join(letter for letter in code.upper() if not letter.isspace() and letter not in "-–.·")
    strange = next((letter for letter in letters if letter not in LETTERS), None)
    if strange is not None:
        raise CodeProblem(f"`{strange}` stands in no code; there is no 0, O, 1 and I in one either. Read the code on "
                          "the sheet again.")
    if len(letters) != _LENGTH:
        raise CodeProblem(f"A code has {_LENGTH} letters and figures, and {code.strip()!r} has {len(letters)}. Read "
                          "the code on the sheet again.")
    if _check_letter(letters[:-1]) != letters[-1]:
        raise CodeProblem(f"{code.strip()} is no code: a letter is wrong, or two have changed places. Read the code "
                          "on the sheet again.")
    return letters


def digest(texts: Iterable[str]) -> str:
    """The first 20 bits over the texts in NFC, each with a zero byte behind it, as four letters."""
    found = sha256(b"".join(normalize("NFC", text).encode("utf-8") + b"\0" for text in texts)).digest()
    bits = int.from_bytes(found[:3], "big") >> 4
    return "".join(LETTERS[bits >> shift & 31] for shift in (15, 10, 5, 0))


def _check_letter(body: str) -> str:
    """The letter that makes the weighted sum nothing: its own weight is one, that of the one before it two …"""
    total = 0
    for letter in body:
        total = _doubled(total ^ LETTERS.index(letter))
    return LETTERS[total]


def _doubled(element: int) -> int:
    """Twice an element of the field."""
    element <<= 1
    return element ^ _FIELD if element & 32 else element
