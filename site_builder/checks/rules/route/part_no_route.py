from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Part


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="part-no-route",
    level=Level.WARNING,
    summary="A part that is made, and no procedure that makes it.",
    reason="Somebody makes it, in some way, and that way stands nowhere.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  foot: Foot
  glass: {title: Glass, supplier: The glass works.}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  foot: Foot
  glass: ▸Glass
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
""",
    check=check,
)
