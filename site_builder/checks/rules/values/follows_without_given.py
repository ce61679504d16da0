from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Saying, Window


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window, Saying):
        for limit, place in analysis.index.of(kind):
            for trend in limit.follows:
                name = trend.value.name
                if trend.value.per is not None and name not in limit.given:
                    yield Found(
                        trend.at, f"Nothing says at which {name} the value holds, so nothing can be reckoned from it.",
                        f"Add `given:` with `{name}` and the figure at which it holds.", place.owner_id,
                    )


RULE = Rule(
    code="follows-without-given",
    level=Level.ERROR,
    summary="A trend with a figure, and nothing to begin from.",
    reason=(
        "“A minute less for every 4 °C” says nothing until one knows at how many degrees the five "
        "minutes hold."
    ),
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
    given: {room temperature: 20 °C}
    follows: falls 1 min per 4 °C of room temperature
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
    follows: ▸falls 1 min per 4 °C of room temperature
""",
    check=check,
)
