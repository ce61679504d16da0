from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import percent
from site_builder.figures.breathed import in_the_air
from site_builder.formulas.errors import Impossible
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, air in in_the_air(analysis):
        try:
            share = air.share
        except Impossible:
            continue
        if share.high > 1:
            title = analysis.notebook.materials[air.material].title
            yield Found(
                air.measured.at, f"A full day in this air uses up {percent(share)} of the limit for “{title}”, "
                f"{air.limit.input.written}.",
                "Draw it off where it rises, shorten the work, and have the air measured again. Until then a mask that "
                "somebody qualified has chosen; local law decides.", id_,
            )


RULE = Rule(
    code="air-over-limit",
    level=Level.WARNING,
    summary="Air that was measured and holds more than its limit over a full day.",
    reason="Fume and dust do their harm over years. Where it was measured and is too much, there is nothing to reckon.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc
conditions: {measured in the air: 1.2 mg/m³}
steps: Pour it.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {exposure limit: 5 mg/m³}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc
conditions: {measured in the air: ▸7 mg/m³}
steps: Pour it.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {exposure limit: 5 mg/m³}
""",
    check=check,
)
