from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import heat, warmer
from site_builder.figures.pouring import too_cold
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for over, slip in too_cold(analysis):
        given, liquidus = over.pour.given, over.liquidus
        title = analysis.notebook.materials[over.metal].title
        below = warmer(Interval.around(-over.kelvin.low, 0), given.is_inch)
        message = (f"`{given.input.written}` is {below} below the liquidus of “{title}”, {liquidus.input.written}: "
                   "there it is not all liquid.")
        fix = "Put right the temperature, or the liquidus of the metal."
        if slip is not None:
            meant = heat(Interval.around(slip.celsius, 0), slip.scale == "°F")
            message += f" {meant} would make sense."
            fix = f"If that was meant, write `{slip.number} {slip.scale}`; else put the temperature right."
        yield Found(given.at, message, fix, over.pour.owner_id)


RULE = Rule(
    code="pour-below-liquidus",
    level=Level.ERROR,
    summary="Metal poured before it is all liquid.",
    reason=(
        "Below its liquidus metal is mush: it stops in the gate, and half of what fills the mould is dross. Often the "
        "number is right and the scale is not."
    ),
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: 490..520 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {solidus: 377 °C, liquidus: 432 °C}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: ▸490..520 °F}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {solidus: 377 °C, liquidus: 432 °C}
""",
    check=check,
)
