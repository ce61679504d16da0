"""The code on a printed checklist: which skill it is of, and of which wording of its list.

Four letters for the id of the skill, four for the id and the items of its checklist, so that a sheet printed from an
older list is known by its code (`code_letters.py`). The learner is not in it: one sheet serves whoever begins, and the
name stands on the line for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from site_builder.notebook.model.people import Skill
from site_builder.skills.code_letters import LETTERS, PART, CodeProblem, code_of, digest, letters_of

_Key = TypeVar("_Key", bound=str)


def sheet_code(skill: Skill) -> str:
    """The code for the checklist of a skill as it stands now."""
    return code_of(("skill", str(skill.skill)), _list(skill))


def skill_of(code: str, skills: Mapping[_Key, Skill]) -> Skill:
    """The skill that a code means, however it was typed. Raises CodeProblem."""
    letters = letters_of(code)
    meant = [skill for id_, skill in skills.items() if digest(("skill", str(id_))) == letters[:PART]]
    found = [skill for skill in meant if digest(_list(skill)) == letters[PART : 2 * PART]]
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


def _list(skill: Skill) -> Iterator[str]:
    yield from ("list", str(skill.skill))
    for show in skill.checklist:
        yield from (str(show.id or ""), str(show.show), str(show.evidence or "seen"))


__all__ = ["LETTERS", "CodeProblem", "sheet_code", "skill_of"]
