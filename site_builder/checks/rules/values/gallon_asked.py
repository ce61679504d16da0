from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import WHICH_GALLON, units_in


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        if WHICH_GALLON in units_in(leaf.value):
            yield Found(
                leaf.at, f"Which gallon is meant for {thing(place, key)}, the American or the imperial?",
                "Write `US gal` or `imp gal`.", place.owner_id,
            )


RULE = Rule(
    code="gallon-asked",
    level=Level.QUESTION,
    summary="A gallon of which nobody says whose it is.",
    reason=(
        "The imperial gallon is a fifth larger than the American. Until it is told, the figure stands as it was "
        "written and is turned into no other unit."
    ),
    passes="""\
=== tools/materials/lye.yml
material: lye
title: Lye
properties: {capacity of the barrel: 36 imp gal}
""",
    fails="""\
=== tools/materials/lye.yml
material: lye
title: Lye
properties: {capacity of the barrel: ▸36 gal}
""",
    check=check,
)
