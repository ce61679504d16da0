from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import about, mass
from site_builder.figures.weights import masses_off
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in masses_off(analysis):
        title = analysis.notebook.materials[one.material].title
        gives = about(mass(one.gives, one.told.is_inch, 2), one.volume.rough or one.density.rough)
        yield Found(
            one.told.at, f"`{one.told.input.written}` does not go with its volume: `{one.volume.input.written}` of "
            f"“{title}”, `{one.density.input.written}`, weighs {gives}.",
            "Weigh it and dip it once more, and put right the one that is wrong: mass, volume or density.", one.part,
        )


RULE = Rule(
    code="mass-off-volume",
    level=Level.WARNING,
    summary="A mass that the volume of the part cannot have in its metal.",
    reason=(
        "Metal is bought and lifted by the mass and moulds are made by the volume. Where the two are more than a tenth "
        "apart, one of them is wrong, or a core is left out."
    ),
    passes="""\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  foot: {title: Foot, material: zinc, sizes: {mass: 1.05..1.15 kg, volume: about 183 cm³}}
=== tools/zinc.yml
material: zinc
title: Zinc
properties: {density: 6.0 g/cm³}
""",
    fails="""\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  foot: {title: Foot, material: zinc, sizes: {mass: ▸1.55..1.65 kg, volume: about 183 cm³}}
=== tools/zinc.yml
material: zinc
title: Zinc
properties: {density: 6.0 g/cm³}
""",
    check=check,
)
