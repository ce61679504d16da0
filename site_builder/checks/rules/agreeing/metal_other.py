from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.small import MaterialUse

_MELTING = frozenset({"solidus", "liquidus", "casting temperature", "pouring temperature"})


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        if own.makes or len(own.part) > 1:
            continue
        for part_id in nb.parts_of(own):
            part = nb.parts.get(part_id)
            if part is None or not part.material or part.of:
                continue
            wanted = {str(one) for one in part.material}
            wanted |= {str(member) for one in wanted if one in nb.things for member in nb.things[one].members}
            uses = [use for work in (own, *own.steps) for use in work.materials]
            if any(_names(use) & wanted for use in uses):
                continue
            for use in uses:
                other = nb.materials.get(str(use.material))
                melts = other is not None and {str(name) for name in other.properties} & _MELTING
                if melts and any(_melts(analysis, one) for one in wanted) and other is not None:
                    yield Found(
                        use.material.at, f"“{part.title}” is of `{part.material[0]}`, and here it is made of "
                        f"`{use.material}`.",
                        f"Write `{part.material[0]}` here, or put right `material` of the part in `shop.yml`.", id_,
                    )


def _names(use: MaterialUse) -> set[str]:
    return {str(use.material), *map(str, use.or_)}


def _melts(analysis: Analysis, id_: str) -> bool:
    thing = analysis.notebook.materials.get(id_)
    return thing is not None and bool({str(name) for name in thing.properties} & _MELTING)


RULE = Rule(
    code="metal-other",
    level=Level.WARNING,
    summary="A part that is of one metal, and work on it that uses another.",
    reason="Two metals in one pot spoil both. Solder and rod beside the metal of the part itself are no contradiction.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {arm: {title: Arm, material: zinc-eight}}
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
part: arm
materials: zinc-eight
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
properties: {liquidus: 404 °C}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {arm: {title: Arm, material: zinc-eight}}
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
part: arm
materials: ▸zinc-eleven
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
properties: {liquidus: 404 °C}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C}
""",
    check=check,
)
