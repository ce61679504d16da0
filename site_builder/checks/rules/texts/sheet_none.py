from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Material


def check(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        if material.hazards and material.sheet is None and "sheet" not in material.asked:
            yield Found(
                material.at, f"Where is the safety data sheet of “{material.title}”?",
                "Add `sheet:` with its title and date; the supplier sends it for nothing.", place.owner_id,
            )


RULE = Rule(
    code="sheet-none",
    level=Level.QUESTION,
    summary="A material that can hurt, without a safety data sheet.",
    reason="The sheet knows more than the shop, and in an accident the doctor asks for it.",
    passes="""\
=== tools/materials/white-spirit.yml
material: white-spirit
title: White spirit
hazards: {hazard: fire, word: danger}
sheet: {title: Safety data sheet of white spirit, date: 2025-01-15}
""",
    fails="""\
=== tools/materials/white-spirit.yml
▸material: white-spirit
title: White spirit
hazards: {hazard: fire, word: danger}
""",
    check=check,
)
