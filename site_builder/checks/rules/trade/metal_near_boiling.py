from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import heat, warmer
from site_builder.figures.pouring import near_boiling
from site_builder.formulas.interval import Interval
from site_builder.formulas.pouring import ZINC_BOILS
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for pour in near_boiling(analysis):
        given = pour.given
        room = ZINC_BOILS - given.span.high
        boils = heat(Interval.around(ZINC_BOILS, 0), given.is_inch)
        where = (f"{warmer(Interval.around(room, 0), given.is_inch)} under the heat at which zinc boils, {boils}"
                 if room > 0 else f"past the heat at which zinc boils, {boils}")
        yield Found(
            given.at, f"At `{given.input.written}` the metal is {where}. It smokes white, loses zinc, and the smoke "
            "brings on fever.",
            "Keep the bath lower, and put right the number or its scale. Fume at work: the law and a qualified person "
            "decide, and only measuring tells.", pour.owner_id,
        )


RULE = Rule(
    code="metal-near-boiling",
    level=Level.WARNING,
    summary="A zinc alloy so hot that its zinc smokes off.",
    reason=(
        "Zinc boils at 907 °C and strives into the air long before, tenfold for each hundred degrees. White smoke is "
        "zinc that is lost, and it makes people ill."
    ),
    passes="""\
=== procedures/foot/melt.yml
procedure: melt
title: Melt the zinc
materials: zinc-eleven
steps:
  - do: Heat it.
    settings: {bath temperature: max 530 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""",
    fails="""\
=== procedures/foot/melt.yml
procedure: melt
title: Melt the zinc
materials: zinc-eleven
steps:
  - do: Heat it.
    settings: {bath temperature: ▸max 650 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""",
    check=check,
)
