from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.gauge_ranges import outside
from site_builder.checks.rules.values.bearing import told
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in outside(analysis):
        if not one.surely:
            title = analysis.notebook.tools[str(one.gauge)].title
            yield Found(
                one.gauge.at, f"“{title}” reads {told(one.reads)}, and `{one.written}` reaches past that.",
                "Name a gauge that reads all of it; where it is read as a difference, name the setting piece beside "
                f"it, as `with: [{one.gauge}, setting-piece]`.", one.owner,
            )


RULE = Rule(
    code="gauge-range-short",
    level=Level.WARNING,
    summary="A limit of which a side lies outside what its gauge reads.",
    reason="A dial reads a large size as a difference from a setting piece. That piece is a gauge too.",
    passes="""\
=== procedures/post/turn-post.yml
procedure: turn-post
title: Turn the post
steps: Turn it.
limits: {length: {is: 42 ±0.1 mm, with: caliper}}
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
properties: {range: 0..150 mm}
""",
    fails="""\
=== procedures/post/turn-post.yml
procedure: turn-post
title: Turn the post
steps: Turn it.
limits: {length: {is: 42 ±0.1 mm, with: ▸dial}}
=== tools/gauges/dial.yml
gauge: dial
title: Dial gauge
properties: {range: 0..10 mm}
""",
    check=check,
)
