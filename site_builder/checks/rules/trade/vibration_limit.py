from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.exposure import shaken_works
from site_builder.figures.vibration_day import day_words, time_left
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, work in shaken_works(analysis):
        if work.day.verdict.at_the_top:
            own, tool = analysis.notebook.procedures[id_], analysis.notebook.tools[work.at.tool]
            yield Found(
                own.title.at, f"A full day of “{own.title}” with the hands at the “{tool.title}” comes to "
                f"{day_words(work.day)}. {time_left(work.at.given)}",
                "Share the work among several people, or tell how long the hands are on it for a piece as `running "
                "time`. Local law decides.", id_,
            )


RULE = Rule(
    code="vibration-limit",
    level=Level.WARNING,
    summary="Work whose full day shakes the hands up to the limit value or over it.",
    reason=(
        "Shaken fingers go white and numb after years, and stay so. The limit value must not be passed on any day."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
time: {each: 10 min}
steps:
  - do: Grind it.
    settings: {running time: 2 min}
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {vibration: 6 m/s²}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
time: {each: 10 min}
steps: Grind it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {vibration: 6 m/s²}
""",
    check=check,
)
