from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Person

YOUNGEST, OLDEST = 10, 100
"""Younger nobody joins, older nobody is still at work."""


def check(analysis: Analysis) -> Iterator[Found]:
    for person, place in analysis.index.of(Person):
        if person.born is None:
            continue
        born = person.born.value.first
        if person.joined is not None and person.born.value.last <= person.joined.value.last:
            age = person.joined.value.last.year - born.year
            if age < YOUNGEST:
                yield Found(
                    person.joined.at, f"{person.name}, born {person.born}, joined at {age} at the most.",
                    "Put right `born` or `joined`; what a child saw at home may stand under `note`.", place.owner_id,
                )
        until = analysis.today if person.left is None else person.left.value.first
        age = until.year - person.born.value.last.year
        if age > OLDEST:
            yield Found(
                person.born.at, f"{person.name}, born {person.born}, would be over {OLDEST} and still in the shop"
                f"{'' if person.left is None else f' in {until.year}'}.",
                "Put right the year of birth, or write `left` with the year in which they went.", place.owner_id,
            )
        elif person.joined is None and 0 <= until.year - born.year < YOUNGEST:
            yield Found(
                person.born.at, f"{person.name}, born {person.born}, is {until.year - born.year} at the most.",
                "Put right the year of birth; who does not work in the shop yet is no person of it.", place.owner_id,
            )


RULE = Rule(
    code="life-doubtful",
    level=Level.WARNING,
    summary="Somebody who is or joined as a small child, or is over a hundred and still at work.",
    reason="A year typed wrong makes the learner old enough for what could kill.",
    passes="""\
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
""",
    fails="""\
=== skills/people.yml
people:
  havel: {name: Havel, born: ▸1919, joined: 1946}
  benno: {name: Benno, born: 1995, joined: ▸1998}
""",
    check=check,
)
