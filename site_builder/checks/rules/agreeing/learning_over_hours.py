from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Person


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for person, place in analysis.index.of(Person):
        if person.learning is None or person.hours is None:
            continue
        learning, hours = held.bounds(person.learning), held.bounds(person.hours)
        # Two hours a day and six a week cannot be compared without the days that are worked.
        if learning is None or hours is None or learning.unit.symbol != hours.unit.symbol:
            continue
        least, most = ends(learning)[0], ends(hours)[1]
        if least is not None and most is not None and least > most:
            yield Found(
                person.learning.at,
                f"{person.name} works `{person.hours}`; of it `{person.learning}` cannot be for lessons.",
                "Put right `learning`, which is a share of `hours`, or put right `hours`.", place.owner_id,
            )


RULE = Rule(
    code="learning-over-hours",
    level=Level.ERROR,
    summary="More hours for lessons than are worked.",
    reason="Lessons are planned within the hours that somebody works.",
    passes="""\
=== skills/people.yml
people:
  ansa: {name: Ansa, hours: 6 h/week, learning: 3 h/week}
""",
    fails="""\
=== skills/people.yml
people:
  ansa: {name: Ansa, hours: 6 h/week, learning: ▸30 h/week}
""",
    check=check,
)
