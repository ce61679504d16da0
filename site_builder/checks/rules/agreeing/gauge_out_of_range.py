from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.gauge_ranges import outside
from site_builder.checks.rules.values.bearing import told
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in outside(analysis):
        if one.surely:
            title = analysis.notebook.tools[str(one.gauge)].title
            yield Found(
                one.gauge.at, f"“{title}” reads {told(one.reads)}; `{one.written}` lies outside.",
                "Name a gauge that reads it, or put right the limit or the `range` of the gauge.", one.owner,
            )


RULE = Rule(
    code="gauge-out-of-range",
    level=Level.ERROR,
    summary="A limit that its gauge cannot read.",
    reason="What is written down for it then was never measured.",
    passes="""\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
limits: {heat of the bath: {is: max 490 °C, with: pyrometer}}
=== tools/gauges/pyrometer.yml
gauge: pyrometer
title: Pyrometer
properties: {range: 0..900 °C}
""",
    fails="""\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
limits: {heat of the bath: {is: max 490 °C, with: ▸pyrometer}}
=== tools/gauges/pyrometer.yml
gauge: pyrometer
title: Pyrometer
properties: {range: 0..250 °C}
""",
    check=check,
)
