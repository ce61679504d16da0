from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.quantity import as_said


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window, Saying):
        for limit, place in analysis.index.of(kind):
            for trend in limit.follows:
                name = trend.value.name
                if trend.value.per is None and name not in limit.given:
                    value = as_said(limit.written.value) if limit.written is not None else thing(place)
                    yield Found(
                        trend.at, f"At which {name} does {value} hold? It {trend.value.way} from there.",
                        f"Add `given:` with `{name}` and the figure at which it holds.", place.owner_id,
                    )


RULE = Rule(
    code="given-missing",
    level=Level.QUESTION,
    summary="A value shifts with something, and nobody said from where.",
    reason=(
        "Even without a figure for the trend, one must know in which weather the value was found."
    ),
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
    given: {room temperature: 20 °C}
    follows: falls with room temperature
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
    follows: ▸falls with room temperature
""",
    check=check,
)
