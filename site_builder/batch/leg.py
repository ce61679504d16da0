"""One procedure on the way of a batch: its time, its lots, what it loses, how long the pieces stand after it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial, reduce
from operator import or_

from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.losses import Fixed, fixed_of, share_of
from site_builder.batch.span import Span, total, written_span
from site_builder.batch.standing import standing, waits_of
from site_builder.batch.times import BY_LOTS, Run, Times, about_times, hands_of, runs_of, times_of
from site_builder.batch.variant import cells_holding, holding
from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.ways import MOST, conditions_of


@dataclass(frozen=True, slots=True)
class Leg:
    """A procedure as a batch meets it. ``outside``: done by others, so that it is nobody's time here.

    ``times`` is None where nothing is told of them, ``scrap`` where no loss is told. ``lot`` is how many pieces go
    through together before the next work begins, where it is told; ``load`` how many at once.
    """

    id: str
    procedure: Procedure
    outside: bool
    hands: int
    times: Times | None
    load: Fraction | None
    lot: Fraction | None
    scrap: Fraction | None
    rework: Fraction
    fixed: tuple[Fixed, ...]
    runs: tuple[Run, ...]
    waits: tuple[Span, ...]
    waits_untold: tuple[Limit, ...]
    faults: tuple[BadFigure, ...]


def leg_of(nb: Notebook, reckoning: Reckoning, id_: str, chosen: Mapping[str, str]) -> Leg:
    """What the notebook tells of a procedure, as far as it holds for what is chosen.

    What the work itself finds out, piece by piece, nobody chooses: there the leg reaches from the least to the most
    that the pieces may meet, and never adds up two findings that exclude each other.
    """
    return _about([_one_way(nb, reckoning, id_, {**chosen, **way}) for way in findings(nb, reckoning, id_, chosen)])


def findings(
    nb: Notebook, reckoning: Reckoning, id_: str, chosen: Mapping[str, str]
) -> tuple[Mapping[str, str], ...]:
    """What the work of a procedure may find out, each choice of it; raises ``Impossible`` where it is too much."""
    own = nb.procedures[id_]
    found = reckoning.ways.choices(conditions_of((own, *used_procedures(nb, own))), chosen, found=True)
    if found is None:
        raise Impossible("what is found out", "", f"in “{own.title}”", f"must have fewer than {MOST} ways")
    return found


def _one_way(nb: Notebook, reckoning: Reckoning, id_: str, chosen: Mapping[str, str]) -> Leg:
    own = nb.procedures[id_]
    faults: list[BadFigure] = []
    load = _size(holding(own.load, chosen), chosen, faults)
    waits = [(limit, standing(reckoning, limit, faults)) for limit in waits_of(own, chosen)]
    scrap, rework = (share_of(own, name, chosen, faults) for name in ("scrap", "rework"))
    return Leg(
        id=id_, procedure=own, outside=own.where is not None, hands=hands_of(own, chosen),
        times=times_of(nb, own, chosen, faults), load=load, lot=load if own.per in BY_LOTS else None,
        scrap=scrap, rework=rework or Fraction(0), fixed=tuple(fixed_of(own, chosen)),
        runs=tuple(runs_of(nb, own, chosen, faults)),
        waits=tuple(span for _, span in waits if span is not None),
        waits_untold=tuple(limit for limit, span in waits if span is None), faults=tuple(faults),
    )


def _about(legs: Sequence[Leg]) -> Leg:
    """One leg about several ways of it: times and waits from least to most, the worst of losses."""
    first, *others = legs
    if all(one == first for one in others):
        return first
    waits = [total(one.waits) for one in legs]
    scraps = [one.scrap for one in legs if one.scrap is not None]
    return replace(
        first, hands=max(one.hands for one in legs), times=about_times([one.times for one in legs]),
        scrap=max(scraps, default=None), rework=max(one.rework for one in legs),
        fixed=max((one.fixed for one in legs), key=lambda fixed: sum(one.count for one in fixed)),
        runs=max((one.runs for one in legs), key=len),
        waits=(reduce(or_, waits),) if any(one.waits for one in legs) else (),
        waits_untold=max((one.waits_untold for one in legs), key=len),
        faults=tuple(dict.fromkeys(fault for one in legs for fault in one.faults)),
    )


def _size(limits: Iterable[Limit], chosen: Mapping[str, str], faults: list[BadFigure]) -> Fraction | None:
    """How many at once: the most that is allowed, or where one aims."""
    sizes = []
    for cell in (cell for limit in limits for cell in cells_holding(limit, chosen)):
        span = written_span(cell.written, "count")
        if span is not None and holds(
            faults, cell.at, partial(guards.at_least, "load", "pieces", float(span.most), 1, "least load")
        ):
            sizes.append(span.most)
    return max(sizes, default=None)
