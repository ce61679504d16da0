from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Part
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.vocabulary import Vocabulary


def check(analysis: Analysis) -> Iterator[Found]:
    parts = analysis.notebook.parts
    words = Vocabulary(parts)
    for part, place in analysis.index.of(Part):
        for id_ in part.of:
            if id_ not in parts:
                yield Found(
                    id_.at, f"No part is called `{id_}`.",
                    f"{did_you_mean(words.nearest(id_))}Parts stand under `parts` in this file.",
                    str(place.name or ""),
                )


RULE = Rule(
    code="part-none",
    level=Level.ERROR,
    summary="Something is put together from a part that there is not.",
    reason="What a product is made of decides what must be made; a part nobody described is made by nobody.",
    passes="""\
=== procedures/shop.yml
shop: lamps
title: Lamps
products:
  lamp:
    title: Lamp
    of: {foot: 1}
parts: {foot: Foot}
""",
    fails="""\
=== procedures/shop.yml
shop: lamps
title: Lamps
products:
  lamp:
    title: Lamp
    of: {▸foots: 1}
parts: {foot: Foot}
""",
    check=check,
)
