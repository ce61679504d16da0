from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import heat, warmer
from site_builder.figures.pouring import FAULT_LITTLE, FAULT_MUCH, astray, slip_of
from site_builder.formulas.interval import Interval
from site_builder.formulas.pouring import LITTLE_SUPERHEAT
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for over, side in astray(analysis):
        given = over.pour.given
        title = analysis.notebook.materials[over.metal].title
        reached = over.kelvin.low if side == "little" else over.kelvin.high
        fault = FAULT_LITTLE if side == "little" else FAULT_MUCH
        only = "only " if side == "little" else ""
        degrees = warmer(Interval.around(reached, 0), given.is_inch)
        message = (f"`{given.input.written}` reaches to {only}{degrees} over the liquidus of “{title}”, "
                   f"{over.liquidus.input.written}: {fault}.")
        bound = LITTLE_SUPERHEAT if side == "little" else over.much
        usual = heat(Interval.around(over.liquidus.span.low + bound, 0), given.is_inch)
        fix = f"Common is no {'less' if side == 'little' else 'more'} than {usual}; write what holds, and its source."
        slip = slip_of(over) if side == "much" else None
        if slip is not None:
            meant = heat(Interval.around(slip.celsius, 0), slip.scale == "°F")
            message += f" {meant} would make sense."
        yield Found(given.at, message, fix, over.pour.owner_id)


RULE = Rule(
    code="pour-superheat",
    level=Level.WARNING,
    summary="Metal poured too little or too far over its liquidus.",
    reason=(
        "Just over its liquidus metal freezes on the way through the mould; far over it, it drinks gas and eats the "
        "mould. Between the two lies good work."
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
properties: {liquidus: 432 °C}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: ▸435..450 °C}
=== procedures/foot/cast-lid.yml
procedure: cast-lid
title: Cast the lid
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: ▸540..570 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""",
    check=check,
)
