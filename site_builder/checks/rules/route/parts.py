"""Rules on parts and the work that makes them."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Part
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.vocabulary import Vocabulary


def part_no_route(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread or not notebook.procedures:  # nothing is told of any part yet
        return
    worked_on = {part for own in notebook.procedures.values() for part in notebook.parts_of(own)}
    worked_on |= {
        link.target.id for link in analysis.references.links
        if link.target is not None and link.target.kind == "part" and link.key in ("part", "makes")
    }
    for part, place in analysis.index.of(Part):
        id_ = str(place.name)
        if id_ in worked_on or part.supplier is not None or "supplier" in part.asked:
            continue
        if len(part.of) > 1:
            yield Found(
                part.at, f"No procedure puts “{part.title}” together.",
                f"Write one with the parts under `part` and `makes: {id_}`, even if all that is done is to pack them.",
                id_,
            )
        elif not part.of:  # several of one part are no work
            yield Found(
                part.at, f"No procedure works on the part “{part.title}”, and it is not said to be bought.",
                f"Write a procedure with `part: {id_}`, or add `supplier:` if it is bought.", id_,
            )


PART_NO_ROUTE = Rule(
    "part-no-route", Level.WARNING, "A part that is made, and no procedure that makes it.",
    "Somebody makes it, in some way, and that way stands nowhere.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  foot: Foot
✓   glass: {title: Glass, supplier: The glass works.}
✗   glass: ▸Glass
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
""", part_no_route,
)


def part_none(analysis: Analysis) -> Iterator[Found]:
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


PART_NONE = Rule(
    "part-none", Level.ERROR, "Something is put together from a part that there is not.",
    "What a product is made of decides what must be made; a part nobody described is made by nobody.",
    """\
=== procedures/shop.yml
shop: lamps
title: Lamps
products:
  lamp:
    title: Lamp
✓     of: {foot: 1}
✗     of: {▸foots: 1}
parts: {foot: Foot}
""", part_none,
)


_USING = frozenset({"material", "or_", "with_", "product"})
"""Keys by which a part is used up, tried out on, or delivered by itself."""


def part_unused(analysis: Analysis) -> Iterator[Found]:
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


PART_UNUSED = Rule(
    "part-unused", Level.WARNING, "A part that goes into no product.",
    "How many of it are needed for a batch cannot be told, and somebody makes too few.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
products:
✓   lantern: {title: Storm lantern, of: {foot: 1, frame-screw: 4}}
✗   lantern: {title: Storm lantern, of: {foot: 1}}
parts:
  foot: Foot
  frame-screw: ▸Screw
""", part_unused,
)
