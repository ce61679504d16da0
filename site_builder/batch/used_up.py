"""What a batch uses up: materials by their amounts, and tools that are changed after a count."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import reduce
from math import ceil
from operator import or_

from site_builder.batch.amounts import Amount, amount_in, amount_of
from site_builder.batch.batch import Batch, LegSpent
from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.leg import findings
from site_builder.batch.returns import with_returns
from site_builder.batch.span import Span, total
from site_builder.batch.taken import Taken
from site_builder.batch.worn import Renewed, by_life, material_uses, renewed
from site_builder.formulas import guards
from site_builder.formulas.used_up import material_used
from site_builder.notebook.model.procedure import Procedure, Work
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.shares import amount_in_figures
from site_builder.quantity import Unit, same_dimensions


@dataclass(frozen=True, slots=True)
class Material:
    """A material of the batch, in base units of ``unit``; ``takers`` are the procedures that take it.

    ``made`` are the procedures that make it here: of that nothing is bought.
    """

    id: str
    unit: Unit
    takers: tuple[Taken, ...]
    made: tuple[str, ...] = ()

    @property
    def amount(self) -> Span:
        """All of it together."""
        return total(taken.amount for taken in self.takers)

    @property
    def back(self) -> Span:
        """What of it goes back and is used again."""
        return total(taken.back for taken in self.takers)

    @property
    def new(self) -> Span:
        """What must be there for the batch besides what comes back of itself."""
        return total(taken.needed for taken in self.takers)


@dataclass(frozen=True, slots=True)
class UsedUp:
    """``untold`` are pairs (material, procedure) whose amount nobody tells, ``faults`` amounts that cannot be."""

    materials: tuple[Material, ...]
    renewed: tuple[Renewed, ...]
    untold: tuple[tuple[str, str], ...]
    faults: tuple[BadFigure, ...] = ()


def used_up(nb: Notebook, reckoning: Reckoning, batch: Batch) -> UsedUp:
    """Materials in the order of the work, one row for each unit kind; then what wears out."""
    found: dict[str, list[Material]] = {}
    untold: dict[tuple[str, str], None] = {}
    faults: list[BadFigure] = []
    for part in batch.parts:
        chosen = batch.chosen_of(nb, part.part)
        for spent in part.legs:
            ways = findings(nb, reckoning, spent.leg.id, chosen)
            taken = _about([_taken(nb, spent, {**chosen, **way}, faults) for way in ways])
            for id_, rows in taken.items():
                for one, unit in rows:
                    _add(found.setdefault(id_, []), id_, one, unit, _makers(nb, id_))
                if not rows and not by_life(nb, id_):
                    untold[id_, spent.leg.id] = None
    told_pairs = {(row.id, taken.procedure) for rows in found.values() for row in rows for taken in row.takers}
    return UsedUp(
        tuple(one for list_ in found.values() for one in list_), tuple(renewed(nb, batch, told_pairs)), tuple(untold),
        tuple(dict.fromkeys(faults)),
    )


_Rows = dict[str, list[tuple[Taken, Unit]]]
"""What one procedure takes: by material, its amounts; none where no amount is told."""


def _taken(nb: Notebook, spent: LegSpent, chosen: Mapping[str, str], faults: list[BadFigure]) -> _Rows:
    found: _Rows = {}
    for id_, uses in material_uses(nb, spent.leg.procedure, chosen).items():
        good = [pair for pair in uses if _can_be(pair[0], faults)]
        found[id_] = [(with_returns(nb, one, unit, spent, chosen), unit) for use, work in good
                      if (scaled := _scaled(nb, spent, use, work)) is not None for one, unit in (scaled,)]
    return found


def _about(ways: Sequence[_Rows]) -> _Rows:
    """From the least to the most of what the pieces may meet; what one way alone takes may be nothing."""
    first, *others = ways
    if all(one == first for one in others):
        return first
    out: _Rows = {}
    for id_ in dict.fromkeys(id_ for way in ways for id_ in way):
        rows = [way.get(id_, []) for way in ways]
        kinds: list[Unit] = []
        for _, unit in (pair for way in rows for pair in way):
            if not any(same_dimensions(unit, one) for one in kinds):
                kinds.append(unit)
        out[id_] = [_widest([[one for one, own in way if same_dimensions(own, unit)] for way in rows], unit)
                    for unit in kinds]
    return out


def _widest(ways: Sequence[Sequence[Taken]], unit: Unit) -> tuple[Taken, Unit]:
    most = max(ways, key=lambda taken: total(one.amount for one in taken).most)
    amount, back, new = (reduce(or_, (total(spans) for spans in each)) for each in (
        [[one.amount for one in taken] for taken in ways], [[one.back for one in taken] for taken in ways],
        [[one.needed for one in taken] for taken in ways]))
    return replace(most[0], amount=amount, back=back, new=new), unit


def _makers(nb: Notebook, id_: str) -> tuple[str, ...]:
    return tuple(one for one, own in nb.procedures.items() if id_ in own.makes)


def _can_be(use: MaterialUse, faults: list[BadFigure]) -> bool:
    amount = amount_of(use.amount)
    if amount is None or use.amount is None:
        return True
    least, count = float(amount.span.least), float(amount.per_count)
    return holds(faults, use.amount.at, lambda: (guards.not_negative("amount", "", least),
                                                 guards.above_zero("pieces it is for", "", count)))


def _add(rows: list[Material], id_: str, taken: Taken, unit: Unit, made: tuple[str, ...]) -> None:
    for n, row in enumerate(rows):
        if same_dimensions(row.unit, unit):
            rows[n] = Material(id_, row.unit, (*row.takers, taken), made)
            return
    rows.append(Material(id_, unit, (taken,), made))


def _scaled(nb: Notebook, spent: LegSpent, use: MaterialUse, work: Work) -> tuple[Taken, Unit] | None:
    """The amount for the whole batch; None where it is not told for what."""
    amount = amount_in(amount_in_figures(nb, spent.leg.procedure, use))
    if amount is None:
        return None
    times = _times(spent, amount, work)
    if times is None:
        return None
    least, most = (material_used(float(count / amount.per_count), float(each)) for count, each in
                   zip(times, (amount.span.least, amount.span.most), strict=True))
    rough = amount.span.rough or amount.span.least != amount.span.most
    return Taken(spent.leg.id, use, Span(Fraction(least), Fraction(most), rough)), amount.unit


def _times(spent: LegSpent, amount: Amount, work: Work) -> tuple[Fraction, Fraction] | None:
    """How often the amount is taken, at least and at most."""
    runs = [count for run, count in spent.runs if isinstance(work, Procedure) and run.procedure == work.procedure]
    if amount.per is None:
        return None
    if amount.noun == "piece":
        return spent.pieces, spent.pieces
    if amount.noun in ("lot", "load"):
        loads = ceil(spent.pieces / spent.leg.load) if spent.leg.load and amount.noun == "load" else spent.lots
        count = Fraction(sum(runs) or loads)
        return count, count
    if amount.noun in ("order", "batch"):
        return Fraction(1), Fraction(1)
    if amount.per.kind == "time":
        return spent.hands.least / amount.per.factor, spent.hands.most / amount.per.factor
    return None
