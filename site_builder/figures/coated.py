"""What plating and paint both ask: how large the face is, and how many pieces of the coming order come to the work."""

from __future__ import annotations

from site_builder.figures.batch_orders import coming, decided
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_of
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.tree import Text


def area_of(known: FigureInputs, own: Procedure, names: tuple[str, ...]) -> Given | None:
    """The area of the part that is worked on, under the first of these names."""
    for part in known.notebook.parts_of(own):
        one = known.notebook.parts.get(part)
        for name in names if one is not None else ():
            limits = one.sizes.get(Text(name), ()) if one is not None else ()
            given = given_of(known, limits, name, "part", part) if limits else None
            if given is not None and given.unit.kind == "area":
                return given
    return None


def pieces_coming(known: FigureInputs, id_: str) -> tuple[str, int] | None:
    """The coming order and how many pieces of it come to a procedure."""
    order = coming(known)
    batches = decided(known.batches.get(order)) if order is not None else ()
    come = [leg.pieces for batch in batches for leg in batch.legs if leg.leg.id == id_]
    return (order, round(sum(come))) if order is not None and come else None
