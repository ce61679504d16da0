"""What somebody could begin to learn now: what comes before is held, old enough, and a teacher is there."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.papers_told import papers_first
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.small import Need
from site_builder.notebook.spans import day_after
from site_builder.skills.ledger import rank
from site_builder.views.prose import Prose, listed, lowered, say

_BESIDE = rank("beside")


def could_learn(people_index: PeopleIndex, context: PageContext, id_: str, person: Person) -> Iterator[Prose]:
    """The skills that could be begun, by who may teach them, then what stands in the way of the others."""
    by_teacher: dict[tuple[str, ...], list[str]] = {}
    waiting: list[Prose] = []
    for skill_id, skill in people_index.book.notebook.skills.items():
        held = people_index.held(id_, skill_id)
        if held is not None and held.rank >= _BESIDE:
            continue
        missing = [need for need in skill.needs if not _meets(people_index, id_, need)]
        teachers = tuple(one for one in people_index.teachers[skill_id] if one != id_)
        if not teachers or not _old_enough(people_index, person, skill_id):
            continue  # the section on ages and that on lost teachers tell why
        if missing:
            waiting.append(_waits(context, skill_id, missing))
        else:
            by_teacher.setdefault(teachers, []).append(skill_id)
    for teachers, skills in by_teacher.items():
        yield say("**With {}:** {}.", listed((context.link("person", one) for one in teachers), "or"),
                     listed(_link(context, one) for one in skills))
        for one in skills:
            if first := papers_first(people_index, context, id_, one):
                yield say("**Before {}:** {}", _link(context, one), lowered(first))
    yield from waiting


def _link(context: PageContext, skill: str) -> Prose:
    return context.link("skill", skill, lowered(context.title("skill", skill)))


def _waits(context: PageContext, id_: str, missing: list[Need]) -> Prose:
    first = listed(say("{} at least {}", _link(context, str(need.skill)), need.level or "alone") for need in missing)
    return say("**Not before {}:** {}.", first, _link(context, id_))


def _meets(people_index: PeopleIndex, person: str, need: Need) -> bool:
    """Whether what a skill needs first is held; of a founder it is not asked."""
    if person in people_index.founders or str(need.skill) not in people_index.book.notebook.skills:
        return True
    held = people_index.held(person, str(need.skill))
    return held is not None and not held.rests and held.rank >= rank(str(need.level or "alone"))


def _old_enough(people_index: PeopleIndex, person: Person, skill: str) -> bool:
    """Whether the hands may begin; who has no birth written down is not taken for old enough."""
    asked = people_index.ages.of_skill(skill, "beside")
    if asked is None:
        return True
    return person.born is not None and day_after(person.born.value.last, asked.seconds) <= people_index.today
