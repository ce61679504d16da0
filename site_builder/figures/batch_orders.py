"""The batches that are ordered, and the one whose figures stand on the pages of what is made."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction

from site_builder.batch.batch import Batch, Wanted, reckon_batch
from site_builder.batch.variant import chosen_for
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.notebook.model.shop import Calendar, Order
from site_builder.notebook.notebook import Notebook
from site_builder.quantity import bounds


def batches_of(known: FigureInputs) -> Mapping[str, Batch | Impossible]:
    """Each order that says what and how many, with what it takes; or what it says that cannot be."""
    found: dict[str, Batch | Impossible] = {}
    for id_, order in known.notebook.orders.items():
        pieces = pieces_of(order)
        if pieces is not None and order.product in known.notebook.parts:
            chosen = chosen_for(known.notebook, str(order.product), order)
            try:
                wanted = Wanted(str(order.product), guards.whole("pieces ordered", pieces, 1), chosen)
                found[id_] = reckon_batch(known.notebook, known.route, known.reckoning, wanted)
            except Impossible as problem:
                found[id_] = problem
    return found


def pieces_of(order: Order) -> Fraction | None:
    """How many are ordered; where a range is written, its greater end."""
    told = bounds(order.pieces.value) if order.pieces is not None else None
    ends = () if told is None else (told.aim_high, told.high, told.low)
    return next((end for end in ends if end is not None), None)


def coming(known: FigureInputs) -> str | None:
    """The order that is due next; one without a date comes last, and one that is past counts if there is no other."""
    found = [id_ for id_, batch in known.batches.items() if isinstance(batch, Batch)]
    ahead = [id_ for id_ in found if _due(known, id_) >= known.today]
    if ahead:
        return min(ahead, key=lambda id_: _due(known, id_))
    return max(found, key=lambda id_: _due(known, id_), default=None)


def calendar_of(nb: Notebook, order: Order | None) -> Calendar | None:
    """The calendar that an order goes by: its own, or the shop's."""
    if order is not None and order.calendar is not None:
        return order.calendar
    return nb.shop.calendar if nb.shop is not None else None


def _due(known: FigureInputs, id_: str) -> date:
    due = known.notebook.orders[id_].due
    return due.value.first if due is not None else date.max
