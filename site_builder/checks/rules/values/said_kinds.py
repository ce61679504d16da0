from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Window
from site_builder.quantity import same_kind, unit_of_value


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if not limit.said:
                continue
            answers = [one for one in (limit.written, *(said.written for said in limit.said)) if one is not None]
            told = [one for one in answers if unit_of_value(one.value) is not None]
            for answer in told[1:]:
                if not same_kind(told[0].value, answer.value):
                    yield Found(
                        answer.at, f"`{answer}` cannot be compared with `{told[0]}`.",
                        "Ask again what was meant, and write both in units of one kind.", place.owner_id,
                    )


RULE = Rule(
    code="said-kinds",
    level=Level.ERROR,
    summary="Answers to one question in units that cannot be compared.",
    reason=(
        "A count of strokes and a time cannot both be the answer; one of the two was asked something "
        "else."
    ),
    passes="""\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
    said:
      - {is: about 20 strokes, who: edda}
      - {is: about 30 strokes, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""",
    fails="""\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
    said:
      - {is: about 20 strokes, who: edda}
      - {is: ▸about 3 min, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""",
    check=check,
)
