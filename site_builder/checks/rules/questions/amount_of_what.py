from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.batch.amounts import amount_of
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import MaterialUse
from site_builder.quantity import as_said


def check(analysis: Analysis) -> Iterator[Found]:
    for use, place in analysis.index.of(MaterialUse):
        amount = amount_of(use.amount)
        if use.amount is None or amount is None or amount.noun or not isinstance(place.owner, Procedure):
            continue
        if amount.unit.kind.startswith("part"):  # a share of the mix, whatever its size
            continue
        material = analysis.notebook.materials.get(str(use.material))
        called = material.title if material is not None else use.material
        if amount.unit.symbol == "%":
            yield Found(use.amount.at, f"`{use.amount}` of “{called}”: of what is that the share?",
                        "Write the amount itself, as `20 g per piece`, and the share under `note`.", place.owner_id)
            continue
        yield Found(
            use.amount.at,
            f"{as_said(use.amount.value)} of “{called}”: for one piece, for a load, or for the whole lot?",
            f"Write `{use.amount} per piece`, `per load` or `per lot`.", place.owner_id,
        )


RULE = Rule(
    code="amount-of-what",
    level=Level.QUESTION,
    summary="An amount of a material, and no word on what it is for.",
    reason="For one piece or for a potful: before the season that decides whether a bag is ordered or a load. Until "
    "it is told, the amount is counted nowhere.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: {material: zinc, amount: 1.1 kg per piece}
steps: Pour.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: {material: zinc, amount: ▸1.1 kg}
steps: Pour.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    check=check,
)
