from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import untold
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Gauge, Machine


def check(analysis: Analysis) -> Iterator[Found]:
    for machine, id_ in untold(analysis, (Machine,), "properties"):
        yield Found(
            machine.title.at,
            f"What is known of “{machine.title}”: how large, how heavy; if it has a motor, how fast, how loud?",
            "Add `properties:`, as `belt speed: max 20 m/s`, `power: 1.5 kW`, `noise: about 92 dB(A)`.", id_,
        )
    for gauge, id_ in untold(analysis, (Gauge,), "properties"):
        yield Found(
            gauge.title.at, f"How fine does “{gauge.title}” read, and from where to where?",
            "Add `properties:` with `range` and `resolution`.", id_,
        )


RULE = Rule(
    code="properties-unsaid",
    level=Level.QUESTION,
    summary="A machine or a gauge without a figure to hold the work against.",
    reason="A setting can be checked against the machine, and a limit against the gauge, only where their "
    "own figures are known.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {belt speed: max 20 m/s}
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
properties: {resolution: 0.02 mm}
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
=== tools/gauges/caliper.yml
gauge: caliper
title: ▸Caliper
""",
    check=check,
)
