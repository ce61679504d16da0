from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.ages import Ages
from site_builder.checks.survey import Survey
from site_builder.mastery.holders import LEVELS
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.spans import day_after

_WORKS = LEVELS.index("beside") + 1


def check(survey: Survey) -> Iterator[Found]:
    ages = Ages(survey)
    for held in survey.holders.held.values():
        person = survey.notebook.people.get(held.person)
        if person is None or person.born is None or held.rank < _WORKS:
            continue
        least = ages.of_skill(held.skill, held.level)
        if least is None:
            continue
        signed = held.entry.date
        day = survey.today if signed is None else signed.value.last
        # of a year of birth without a day the first day counts: who is too young even so surely is
        old_enough = day_after(person.born.value.first, least.seconds)
        if day < old_enough and held.entry.learner is not None:
            yield Found(
                held.entry.learner.at,
                f"{person.name} was too young on {day.isoformat()}: {least.of} asks for {least.written}, "
                f"which is reached on {old_enough.isoformat()}.",
                "Withdraw this entry with a new one, or put the date of birth right; where the law draws the "
                "line higher, the law goes first.",
                held.person,
            )


RULE = Rule(
    code="too-young",
    level=Level.ERROR,
    summary="Somebody holds a skill, and so works with a tool or a material, before the age that is "
    "written for it.",
    reason="The age stands there because somebody was hurt, or because the law says so. A sign-off does "
    "not make anybody older.",
    passes="""\
=== skills/grinding-flat.yml
skill: grinding-flat
title: Grinding flat
age: min 16 y
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958}
  ansa: {name: Ansa, born: 2010-06-19}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: ansa
skill: grinding-flat
level: beside
""",
    fails="""\
=== skills/grinding-flat.yml
skill: grinding-flat
title: Grinding flat
age: min 16 y
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958}
  ansa: {name: Ansa, born: 2010-06-20}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: ▸ansa
skill: grinding-flat
level: beside
""",
    check=check,
)
