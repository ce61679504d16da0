from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.moulds import FAULT_COLD, FAULT_HOT, unborne
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in unborne(analysis):
        title = analysis.notebook.things[one.thing].title
        side, fault = ("hotter", FAULT_HOT) if one.too_hot else ("colder", FAULT_COLD)
        yield Found(
            one.given.at, f"`{one.given.input.written}` is {side} than “{title}” bears, {one.bears.input.written}: "
            f"{fault}.",
            "Put right the heat of the mould, or what is told of its coat or the mould.", one.procedure,
        )


RULE = Rule(
    code="mould-heat",
    level=Level.WARNING,
    summary="A mould hotter or colder than its coat bears.",
    reason=(
        "The coat keeps the metal off the iron. Too hot it burns off and the casting sticks; too cold it stays damp, "
        "and the metal freezes before the mould is full."
    ),
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: mould-wash
steps: Pour it.
conditions: {heat of the mould: 200..250 °C}
=== tools/materials/mould-wash.yml
material: mould-wash
title: Mould wash
properties: {heat of the mould: 150..280 °C}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: mould-wash
steps: Pour it.
conditions: {heat of the mould: ▸200..350 °C}
=== tools/materials/mould-wash.yml
material: mould-wash
title: Mould wash
properties: {heat of the mould: 150..280 °C}
""",
    check=check,
)
