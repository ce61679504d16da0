from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.possible.held_to import doubtful, held
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in held(analysis):
        odd = doubtful(one)
        if odd:
            yield Found(
                one.written.at, f"`{one.written}` is {odd} for `{one.name}`.",
                "Put right the figure or its unit; where it is right, this may stand.", one.owner,
            )


RULE = Rule(
    code="figure-doubtful",
    level=Level.WARNING,
    summary="A figure that can be, but hardly ever is.",
    reason=(
        "A week of seventy hours, a room at fifty degrees: more often than not a unit was mistaken or a digit typed "
        "twice. How far is usual is common practice, drawn wide."
    ),
    passes="""\
=== skills/people.yml
people:
  edda: {name: Edda, hours: 35 h/week}
""",
    fails="""\
=== skills/people.yml
people:
  edda: {name: Edda, hours: ▸72 h/week}
""",
    check=check,
)
