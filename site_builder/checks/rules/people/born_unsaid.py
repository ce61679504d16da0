from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.skills.ledger import LEVELS


def check(analysis: Analysis) -> Iterator[Found]:
    ages = analysis.law.ages
    asked = (ages.of_skill(skill, level) for skill in analysis.notebook.skills for level in LEVELS[1:])
    first = next((age for age in asked if age is not None), None)
    if first is None:
        return
    for id_, person in analysis.notebook.living.items():
        if person.born is None and "born" not in person.asked:
            yield Found(
                person.at, f"When was {person.name} born? {first.of} asks for {first.written}.",
                "Add `born:` with the day, as `2011-06-19`; a bare year counts from its last day.", id_,
            )


RULE = Rule(
    code="born-unsaid",
    level=Level.QUESTION,
    summary="A person whose birth is not written, in a shop that asks for an age.",
    reason="Whose age is not known is never old enough: nothing that asks for an age can be signed for them.",
    passes="""\
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
=== skills/people.yml
people:
  ansa: {name: Ansa, born: 2011-06-19}
""",
    fails="""\
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
=== skills/people.yml
people:
  ansa: ▸{name: Ansa}
""",
    check=check,
)
