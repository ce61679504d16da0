from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, has_any
from site_builder.notebook.finding import Level
from site_builder.notebook.told import Told


def _begins_something(analysis: Analysis, told: Told) -> bool:
    """The first work on a part, or the mixing of a material, with no material in it."""
    materials, own = analysis.notebook.materials, told.procedure
    if not materials.keys().isdisjoint(told.things):
        return False
    return any(made in materials for made in own.makes) or not (told.shared or has_any(own, ("after",)))


RULE = Rule(
    code="materials-asked",
    level=Level.QUESTION,
    summary="Work that begins a part, or makes a mix, out of nothing.",
    reason="What goes in, and how much of it, is what has to be ordered before the season. Some of it can "
    "also burn or bite.",
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
title: ▸Cast the foot
steps: Pour.
""",
    check=asks_for(
        "materials",
        question="Of what is it made, and how much does it take: {}?",
        fix="Add `materials:`, each with `amount` (`1.1 kg per piece`); `materials: []` where nothing is used.",
        worth=_begins_something,
    ),
)
