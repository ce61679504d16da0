from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Part

_USING = frozenset({"material", "or_", "with_", "product"})
"""Keys by which a part is used up, tried out on, or delivered by itself."""


def check(analysis: Analysis) -> Iterator[Found]:
    notebook, shop = analysis.notebook, analysis.notebook.shop
    used = {str(part) for whole in notebook.parts.values() for part in whole.of}
    if shop is None or notebook.unread or not used:  # nobody has told yet what anything is put together from
        return
    used |= {str(part) for own in notebook.procedures.values() if len(own.part) > 1 for part in own.part}
    for part, place in analysis.index.of(Part):
        id_ = str(place.name)
        if place.key == "parts" and id_ not in used and not any(
            link.key in _USING for link in analysis.references.used_in("part", id_)
        ):
            yield Found(
                part.at, f"No product is put together from the part “{part.title}”.",
                f"Add `{id_}` with its number under `of` of the product or the part it goes into; what is sold by "
                "itself stands under `products`.", id_,
            )


RULE = Rule(
    code="part-unused",
    level=Level.WARNING,
    summary="A part that goes into no product.",
    reason="How many of it are needed for a batch cannot be told, and somebody makes too few.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
products:
  lantern: {title: Storm lantern, of: {foot: 1, frame-screw: 4}}
parts:
  foot: Foot
  frame-screw: Screw
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
products:
  lantern: {title: Storm lantern, of: {foot: 1}}
parts:
  foot: Foot
  frame-screw: ▸Screw
""",
    check=check,
)
