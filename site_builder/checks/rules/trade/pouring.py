"""Rules of the foundry: heats and masses."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import about, heat, mass, warmer
from site_builder.figures.moulds import FAULT_COLD, FAULT_HOT, unborne
from site_builder.figures.pouring import FAULT_LITTLE, FAULT_MUCH, astray, near_boiling, slip_of, too_cold
from site_builder.figures.weights import masses_off
from site_builder.formulas.interval import Interval
from site_builder.formulas.pouring import LITTLE_SUPERHEAT, ZINC_BOILS
from site_builder.notebook.finding import Found, Level


def pour_below_liquidus(analysis: Analysis) -> Iterator[Found]:
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


POUR_BELOW_LIQUIDUS = Rule(
    "pour-below-liquidus", Level.ERROR, "Metal poured before it is all liquid.",
    "Below its liquidus metal is mush: it stops in the gate, and half of what fills the mould is dross. Often "
    "the number is right and the scale is not.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
✓     settings: {casting temperature: 490..520 °C}
✗     settings: {casting temperature: ▸490..520 °F}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {solidus: 377 °C, liquidus: 432 °C}
""", pour_below_liquidus,
)


def pour_superheat(analysis: Analysis) -> Iterator[Found]:
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


POUR_SUPERHEAT = Rule(
    "pour-superheat", Level.WARNING, "Metal poured too little or too far over its liquidus.",
    "Just over its liquidus metal freezes on the way through the mould; far over it, it drinks gas and eats the "
    "mould. Between the two lies good work.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
✓     settings: {casting temperature: 490..520 °C}
✗     settings: {casting temperature: ▸435..450 °C}
✗ === procedures/foot/cast-lid.yml
✗ procedure: cast-lid
✗ title: Cast the lid
✗ materials: zinc-eleven
✗ steps:
✗   - do: Pour in one stream.
✗     settings: {casting temperature: ▸540..570 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""", pour_superheat,
)


def metal_near_boiling(analysis: Analysis) -> Iterator[Found]:
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


METAL_NEAR_BOILING = Rule(
    "metal-near-boiling", Level.WARNING, "A zinc alloy so hot that its zinc smokes off.",
    "Zinc boils at 907 °C and strives into the air long before, tenfold for each hundred degrees. White smoke is "
    "zinc that is lost, and it makes people ill.",
    """\
=== procedures/foot/melt.yml
procedure: melt
title: Melt the zinc
materials: zinc-eleven
steps:
  - do: Heat it.
✓     settings: {bath temperature: max 530 °C}
✗     settings: {bath temperature: ▸max 650 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""", metal_near_boiling,
)


def mould_heat(analysis: Analysis) -> Iterator[Found]:
    for one in unborne(analysis):
        title = analysis.notebook.things[one.thing].title
        side, fault = ("hotter", FAULT_HOT) if one.too_hot else ("colder", FAULT_COLD)
        yield Found(
            one.given.at, f"`{one.given.input.written}` is {side} than “{title}” bears, {one.bears.input.written}: "
            f"{fault}.",
            "Put right the heat of the mould, or what is told of its coat or the mould.", one.procedure,
        )


MOULD_HEAT = Rule(
    "mould-heat", Level.WARNING, "A mould hotter or colder than its coat bears.",
    "The coat keeps the metal off the iron. Too hot it burns off and the casting sticks; too cold it stays damp, "
    "and the metal freezes before the mould is full.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: mould-wash
steps: Pour it.
✓ conditions: {heat of the mould: 200..250 °C}
✗ conditions: {heat of the mould: ▸200..350 °C}
=== tools/materials/mould-wash.yml
material: mould-wash
title: Mould wash
properties: {heat of the mould: 150..280 °C}
""", mould_heat,
)


def mass_off_volume(analysis: Analysis) -> Iterator[Found]:
    for one in masses_off(analysis):
        title = analysis.notebook.materials[one.material].title
        gives = about(mass(one.gives, one.told.is_inch, 2), one.volume.rough or one.density.rough)
        yield Found(
            one.told.at, f"`{one.told.input.written}` does not go with its volume: `{one.volume.input.written}` of "
            f"“{title}”, `{one.density.input.written}`, weighs {gives}.",
            "Weigh it and dip it once more, and put right the one that is wrong: mass, volume or density.", one.part,
        )


MASS_OFF_VOLUME = Rule(
    "mass-off-volume", Level.WARNING, "A mass that the volume of the part cannot have in its metal.",
    "Metal is bought and lifted by the mass and moulds are made by the volume. Where the two are more than a "
    "tenth apart, one of them is wrong, or a core is left out.",
    """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
✓   foot: {title: Foot, material: zinc, sizes: {mass: 1.05..1.15 kg, volume: about 183 cm³}}
✗   foot: {title: Foot, material: zinc, sizes: {mass: ▸1.55..1.65 kg, volume: about 183 cm³}}
=== tools/zinc.yml
material: zinc
title: Zinc
properties: {density: 6.0 g/cm³}
""", mass_off_volume,
)
