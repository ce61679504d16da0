from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Material
from site_builder.quantity import kind_of


def check(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        for share in material.composition.values():
            if kind_of(share.value) == "part":
                yield Found(
                    share.at, f"Is “{material.title}” mixed by weight or by volume?",
                    "Write `parts by weight` or `parts by volume` with each.", place.owner_id,
                )
                break


RULE = Rule(
    code="mix-unsaid",
    level=Level.QUESTION,
    summary="A mix in parts, and no word on whether they are weighed or poured.",
    reason="A hundred to two by weight and a hundred to two by volume are two different mixes, and one of "
    "them never sets.",
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
composition: {paste: 100 parts by weight, hardener: 2 parts by weight}
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
composition: {paste: ▸100 parts, hardener: 2 parts}
""",
    check=check,
)
