"""Who can do a piece of work: the skills it names, and the living people signed for them."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.index import Place
from site_builder.notebook.model.procedure import Work


def signed(analysis: Analysis) -> bool:
    """True where a book of sign-offs tells who can do what; a shop that has not begun one is not judged."""
    notebook = analysis.notebook
    return bool(notebook.books.get("sign-off") and notebook.people) and not notebook.unread


def skills_at(place: Place) -> tuple[str, ...]:
    """The skill that work at this place asks for, the step's before the procedure's; of a table, all rows."""
    for around in place.up():
        entry = around.entry
        if isinstance(entry, Work) and entry.skill is not None:
            return tuple(_flat(entry.skill))
    return ()


def done_elsewhere(place: Place) -> bool:
    """True where the work is done by somebody outside the shop."""
    return any(isinstance(around.entry, Work) and around.entry.where is not None for around in place.up())


def able_at(analysis: Analysis, place: Place, level: str = "alone") -> frozenset[str]:
    """The living people who can do the work at this place, in at least one of its variants."""
    skills = skills_at(place)
    if not skills:
        return frozenset(analysis.notebook.living)
    return frozenset(person for skill in skills for person in analysis.holders.able(skill, level))


def name_of(analysis: Analysis, person: str) -> str:
    """The name of a person as it stands in the notebook."""
    return str(analysis.notebook.people[person].name)


def title_of(analysis: Analysis, skill: str) -> str:
    """The title of a skill, or its id where nobody wrote one."""
    known = analysis.notebook.skills.get(skill)
    return skill if known is None else str(known.title)


def _flat(skill: object) -> list[str]:
    if isinstance(skill, Mapping):
        return [one for row in skill.values() for one in _flat(row)]
    return [str(skill)]
