"""One procedure on the way of a batch: its time, its lots, what it loses, how long the pieces stand after it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.losses import Fixed, fixed_of, share_of
from site_builder.batch.span import Span, written_span
from site_builder.batch.standing import standing, waits_of
from site_builder.batch.times import BY_LOTS, Run, Times, hands_of, runs_of, times_of
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning


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
    """What the notebook tells of a procedure, as far as it holds for what is chosen."""
    own = nb.procedures[id_]
    faults: list[BadFigure] = []
    load = _size(holding(own.load, chosen), faults)
    waits = [(limit, standing(reckoning, limit, faults)) for limit in waits_of(own, chosen)]
    scrap, rework = (share_of(own, name, chosen, faults) for name in ("scrap", "rework"))
    return Leg(
        id=id_, procedure=own, outside=own.where is not None, hands=hands_of(own),
        times=times_of(nb, own, chosen, faults), load=load, lot=load if own.per in BY_LOTS else None,
        scrap=scrap, rework=rework or Fraction(0), fixed=tuple(fixed_of(own, chosen)),
        runs=tuple(runs_of(nb, own, chosen, faults)),
        waits=tuple(span for _, span in waits if span is not None),
        waits_untold=tuple(limit for limit, span in waits if span is None), faults=tuple(faults),
    )


def _size(limits: Iterable[Limit], faults: list[BadFigure]) -> Fraction | None:
    """How many at once: the most that is allowed, or where one aims."""
    sizes = []
    for limit in limits:
        span = written_span(limit.written, "count")
        if span is not None and holds(
            faults, limit.at, partial(guards.at_least, "load", "pieces", float(span.most), 1, "least load")
        ):
            sizes.append(span.most)
    return max(sizes, default=None)
