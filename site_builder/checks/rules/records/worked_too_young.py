from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.records import Practice
from site_builder.skills.holders import LEVELS

_WATCHES, _BESIDE, *_ = LEVELS


def check(analysis: Analysis) -> Iterator[Found]:
    ages = analysis.law.ages
    for entry, place in standing(analysis, Practice):
        person = analysis.notebook.people.get(str(entry.who))
        if person is None or person.born is None or entry.date is None or entry.procedure is None:
            continue
        if entry.level == _WATCHES:
            continue
        asked = ages.of_procedure(str(entry.procedure), str(entry.level or _BESIDE))
        if asked is None:
            continue
        # of a year of birth without a day the last day counts: nobody is taken for older than is known
        old_enough = asked.reached(person.born.value.last)
        if entry.date.value.last < old_enough:
            yield Found(
                entry.date.at,
                f"{person.name} was too young for this work on {entry.date}: {asked.of} asks for {asked.written}, "
                f"which is reached on {old_enough.isoformat()}.",
                "Until then let the learner watch and study; where the law draws the line higher, the law goes first. "
                "The entry stays, for it tells what was done.", place.owner_id,
            )


RULE = Rule(
    code="worked-too-young",
    level=Level.WARNING,
    summary="Pieces were made by somebody younger than the work allows.",
    reason=(
        "A sign-off refuses who is too young; the work itself does not. The book of practice shows where it happened, "
        "before somebody is hurt."
    ),
    passes="""\
=== procedures/grind.yml
procedure: grind
title: Grind
tools: grinder
steps: Grind it.
=== tools/grinder.yml
machine: grinder
title: Grinder
age: min 16 y
=== skills/people.yml
people:
  ansa: {name: Ansa, born: 2010-06-19}
=== skills/records/practice.yml
---
practice: 1
who: ansa
date: 2026-06-19
procedure: grind
level: beside
pieces: 6
""",
    fails="""\
=== procedures/grind.yml
procedure: grind
title: Grind
tools: grinder
steps: Grind it.
=== tools/grinder.yml
machine: grinder
title: Grinder
age: min 16 y
=== skills/people.yml
people:
  ansa: {name: Ansa, born: 2010-06-19}
=== skills/records/practice.yml
---
practice: 1
who: ansa
date: ▸2026-06-18
procedure: grind
level: beside
pieces: 6
""",
    check=check,
)
