"""The batches that are ordered, and the one whose figures stand on the pages of what is made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from site_builder.batch.batch import Batch, Wanted
from site_builder.batch.side_by_side import side_by_side
from site_builder.batch.variant import chosen_for
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.shop import Calendar, Order
from site_builder.notebook.notebook import Notebook
from site_builder.quantity import bounds

Batches = tuple[Batch, ...]
"""What an order takes. Batches of one ``share`` are ways of making the same pieces, of which one will be gone."""


def batches_of(known: FigureInputs) -> Mapping[str, Batches | Impossible]:
    """Each order that says what and how many, with what it takes; or what it says that cannot be."""
    found: dict[str, Batches | Impossible] = {}
    for id_, order in known.notebook.orders.items():
        shares = shares_of(known.notebook, order)
        if shares and order.product in known.notebook.parts:
            try:
                found[id_] = tuple(_reckoned(known, order, shares))
            except Impossible as problem:
                found[id_] = problem
    return found


def _reckoned(known: FigureInputs, order: Order, shares: Sequence[Share]) -> Iterator[Batch]:
    for number, share in enumerate(shares):
        wanted = Wanted(str(order.product), guards.whole("pieces ordered", share.pieces, 1), share.chosen, share=number)
        for batch in side_by_side(known.notebook, known.route, known.reckoning, wanted):
            way = {**share.told, **batch.wanted.way}
            yield replace(batch, wanted=replace(batch.wanted, way=way))


class Share(NamedTuple):
    """Pieces of an order that are made alike; ``told`` are the variants that tell them from the other pieces."""

    pieces: Fraction
    chosen: Mapping[str, str]
    told: Mapping[str, str]


def shares_of(nb: Notebook, order: Order) -> tuple[Share, ...]:
    """The whole order, or the shares into which it is split, and what is left over of it."""
    chosen, pieces = chosen_for(nb, str(order.product), order), pieces_of(order)
    found: list[Share] = []
    for one in order.split:
        count = _greatest(one.pieces)
        if count is not None:
            told = {str(name): str(value) for name, value in one.chosen.items()}
            found.append(Share(count, {**chosen, **told}, told))
    left = pieces - sum(share.pieces for share in found) if pieces is not None else Fraction(0)
    if left > 0 or (pieces is not None and not found):
        names = dict.fromkeys(name for share in found for name in share.told)
        found.append(Share(left, chosen, {name: chosen.get(name, "left open") for name in names}))
    return tuple(found)


def decided(batches: object) -> Batches:
    """The batches of an order that are all made; none where the way of one is open."""
    told = batches if isinstance(batches, tuple) else ()
    shares = [batch.wanted.share for batch in told]
    return told if len(set(shares)) == len(shares) else ()


def pieces_of(order: Order) -> Fraction | None:
    """How many are ordered; where a range is written, its greater end."""
    return _greatest(order.pieces)


def _greatest(leaf: Written | None) -> Fraction | None:
    told = bounds(leaf.value) if leaf is not None else None
    ends = () if told is None else (told.aim_high, told.high, told.low)
    return next((end for end in ends if end is not None), None)


def coming(known: FigureInputs) -> str | None:
    """The order that is due next; one without a date comes last, and one that is past counts if there is no other."""
    found = [id_ for id_, batches in known.batches.items() if not isinstance(batches, Impossible)]
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
