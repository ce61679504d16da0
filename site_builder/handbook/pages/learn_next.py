"""What somebody could begin to learn now: what comes before is held, old enough, and a teacher is there."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages.in_words import listed, lowered
from site_builder.handbook.pages.papers_told import papers_first
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pen import Pen
from site_builder.mastery.ledger import rank
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.small import Need
from site_builder.notebook.spans import day_after

_BESIDE = rank("beside")


def could_learn(roll: Roll, pen: Pen, id_: str, person: Person) -> Iterator[Markup]:
    """The skills that could be begun, by who may teach them, then what stands in the way of the others."""
    by_teacher: dict[tuple[str, ...], list[str]] = {}
    waiting: list[Markup] = []
    for skill_id, skill in roll.book.notebook.skills.items():
        held = roll.held(id_, skill_id)
        if held is not None and held.rank >= _BESIDE:
            continue
        missing = [need for need in skill.needs if not _meets(roll, id_, need)]
        teachers = tuple(one for one in roll.teachers[skill_id] if one != id_)
        if not teachers or not _old_enough(roll, person, skill_id):
            continue  # the section on ages and that on lost teachers tell why
        if missing:
            waiting.append(_waits(pen, skill_id, missing))
        else:
            by_teacher.setdefault(teachers, []).append(skill_id)
    for teachers, skills in by_teacher.items():
        yield filled("<b>With {}:</b> {}.", listed((pen.link("person", one) for one in teachers), "or"),
                     listed(_link(pen, one) for one in skills))
        for one in skills:
            if first := papers_first(roll, pen, id_, one):
                yield filled("<b>Before {}:</b> {}", _link(pen, one), lowered(first))
    yield from waiting


def _link(pen: Pen, skill: str) -> Markup:
    return pen.link("skill", skill, lowered(pen.title("skill", skill)))


def _waits(pen: Pen, id_: str, missing: list[Need]) -> Markup:
    first = listed(filled("{} at least {}", _link(pen, str(need.skill)), need.level or "alone") for need in missing)
    return filled("<b>Not before {}:</b> {}.", first, _link(pen, id_))


def _meets(roll: Roll, person: str, need: Need) -> bool:
    """Whether what a skill needs first is held; of a founder it is not asked."""
    if person in roll.founders or str(need.skill) not in roll.book.notebook.skills:
        return True
    held = roll.held(person, str(need.skill))
    return held is not None and not held.rests and held.rank >= rank(str(need.level or "alone"))


def _old_enough(roll: Roll, person: Person, skill: str) -> bool:
    """Whether the hands may begin; who has no birth written down is not taken for old enough."""
    asked = roll.ages.of_skill(skill, "beside")
    if asked is None:
        return True
    return person.born is not None and day_after(person.born.value.last, asked.seconds) <= roll.today
