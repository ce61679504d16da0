"""The code on a printed checklist: which skill it is of, and of which wording of its list.

Nine letters in three groups, as ``KQF-7MB-X4R``: four for the skill, four for its checklist, one to check the
rest. There is no 0, O, 1 and I among them. The four are the first 20 bits of a SHA-256 over the id of the skill,
and over the id and the items of its checklist; so a sheet printed from an older list is known by its code. The
learner is not in it: one sheet serves whoever begins, and the name stands on the line for it.

The last letter makes the sum of all nine, each times its own power of 2 in the field of 32 elements
(x^5 + x^2 + 1), come to nothing. No two powers are the same, so every single wrong letter and every two letters
that have changed places are found; a test tries them all.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from hashlib import sha256
from typing import TypeVar
from unicodedata import normalize

from site_builder.notebook.model.people import Skill

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""The 32 letters and figures of a code."""

_PART, _LENGTH, _GROUP = 4, 9, 3
_FIELD = 0b100101
_Key = TypeVar("_Key", bound=str)


class CodeProblem(Exception):
    """The code leads to no checklist that can be entered; the text says why and what to do."""


def sheet_code(skill: Skill) -> str:
    """The code for the checklist of a skill as it stands now."""
    body = _skill_part(str(skill.skill)) + _list_part(skill)
    letters = body + _check_letter(body)
    return "-".join(letters[at : at + _GROUP] for at in range(0, _LENGTH, _GROUP))


def skill_of(code: str, skills: Mapping[_Key, Skill]) -> Skill:
    """The skill that a code means, however it was typed. Raises CodeProblem."""
    letters = _letters(code)
    meant = [skill for id_, skill in skills.items() if _skill_part(str(id_)) == letters[:_PART]]
    found = [skill for skill in meant if _list_part(skill) == letters[_PART : 2 * _PART]]
    if len(found) == 1:
        return found[0]
    if not meant:
        raise CodeProblem(f"No skill of this notebook has the code {code.strip()}. The sheet is of another shop, or "
                          "the skill was given another id or taken out.")
    names = " or ".join(f"`{skill.skill}` ({skill.title})" for skill in meant)
    if found:
        raise CodeProblem(f"The code means {names}. Sign with `benchlore sign --skill … --item …`.")
    raise CodeProblem(
        f"This sheet is of another wording of the checklist of {names}: the list was changed after it was printed. "
        "Print the sheet anew and look through it together; or sign what holds with `benchlore sign --item …`."
    )


def _letters(code: str) -> str:
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


def _skill_part(id_: str) -> str:
    return _digest(("skill", id_))


def _list_part(skill: Skill) -> str:
    told = ((str(show.id or ""), str(show.show), str(show.evidence or "seen")) for show in skill.checklist)
    return _digest(("list", str(skill.skill), *(text for item in told for text in item)))


def _digest(texts: Iterable[str]) -> str:
    """The first 20 bits over the texts in NFC, each with a zero byte behind it."""
    digest = sha256(b"".join(normalize("NFC", text).encode("utf-8") + b"\0" for text in texts)).digest()
    bits = int.from_bytes(digest[:3], "big") >> 4
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


__all__ = ["LETTERS", "CodeProblem", "sheet_code", "skill_of"]
