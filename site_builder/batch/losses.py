"""What a procedure loses: a share of the pieces, and pieces that never pass on however good they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from site_builder.batch.amounts import amount_of
from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.span import written_span
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.notebook.model.judging import Keep
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.small import Yield

_NAMES = {"scrap": "share lost", "rework": "share done again"}


@dataclass(frozen=True, slots=True)
class Fixed:
    """Pieces that do not pass on however good they are: warming castings, torn-up and kept samples.

    ``count`` of them once for every lot, or once for every ``every`` pieces.
    """

    count: int
    every: int | None
    written: Written
    step: Step | None
    what: str


def share_of(own: Procedure, name: str, chosen: Mapping[str, str], faults: list[BadFigure]) -> Fraction | None:
    """The share lost or done again, the worst of its variants; one that no work can have becomes a fault."""
    found: list[Fraction] = []
    for told in holding(own.yield_, chosen):
        leaf: Written | None = getattr(told, name)
        span = written_span(leaf, "ratio")
        if leaf is not None and span is not None:
            guard = partial(guards.lost_share, _NAMES[name], float(span.most))
            if holds(faults, leaf.at, guard):
                found.append(span.most)
    return max(found, default=None)


def fixed_of(own: Procedure, chosen: Mapping[str, str]) -> Iterator[Fixed]:
    for step in holding(own.steps, chosen):
        lost = any(map(_all_lost, holding(step.yield_, chosen)))
        if step.repeat is not None and step.repeat.times is not None and lost:
            times = written_span(step.repeat.times, "count")
            if times is not None and times.least >= 0:
                yield Fixed(int(times.most), None, step.repeat.times, step, "thrown back while warming up")
        for keep in holding(step.keep, chosen):
            yield from _kept(keep, step)
    for keep in holding(own.keep, chosen):
        yield from _kept(keep, None)


def _all_lost(told: Yield) -> bool:
    span = written_span(told.scrap, "ratio")
    return span is not None and span.least == 1


def _kept(keep: Keep, step: Step | None) -> Iterator[Fixed]:
    """Samples of the work itself; strips, dross and what else is kept are no pieces of it."""
    amount = amount_of(keep.amount)
    if keep.amount is None or amount is None or amount.unit.symbol != "piece" or amount.span.least < 0:
        return
    count, what = int(amount.span.most), f"kept: {str(keep.what).rstrip('.')}"
    if amount.noun in ("", "lot", "load", "order", "batch"):
        yield Fixed(count, None, keep.amount, step, what)
    elif amount.noun == "piece" and amount.per_count >= 1:
        yield Fixed(count, int(amount.per_count), keep.amount, step, what)
