from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.running import outside_bands
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in outside_bands(analysis):
        given, title = one.running.given, analysis.notebook.tools[one.running.tooling].title
        slow = one.surface.high < one.band.speeds.low
        side = "slower" if slow else "faster"
        fault = "it drags and smears" if slow else "it burns the work and snatches it"
        speeds = both(one.band.speeds, "m/s", "ft/min", given.is_inch)
        yield Found(
            given.at, f"“{title}” runs at {both(one.surface, 'm/s', 'ft/min', given.is_inch)}, {side} than is "
            f"recommended for a {one.wheel} on {one.work}, {speeds}: {fault}.",
            f"Set what lies in the band, as far as the rating allows, or write why not. From: {one.band.source}.",
            str(one.running.procedure.procedure),
        )


RULE = Rule(
    code="speed-outside-band",
    level=Level.WARNING,
    summary="A wheel or belt that runs slower or faster than is recommended for the work.",
    reason=(
        "Too slow a mop drags and smears, too fast a belt burns soft metal. The band is advice; what is marked on the "
        "wheel comes first."
    ),
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
steps:
  - do: Grind it.
    settings: {belt speed: 17..19 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
steps:
  - do: Grind it.
    settings: {belt speed: ▸30..35 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    check=check,
)
