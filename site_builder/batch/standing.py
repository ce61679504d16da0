"""How long the pieces stand at least, after a step or at the end, before the work may go on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import partial

from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.span import NONE, Span
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.way import stands_after
from site_builder.quantity import Limits


def waits_of(own: Procedure, chosen: Mapping[str, str]) -> Iterator[Limit]:
    last = own.steps[-1] if own.steps else None
    for step in own.steps:
        if step is not last:
            yield from holding(step.wait, chosen)
    yield from holding(stands_after(own), chosen)


def standing(reckoning: Reckoning, limit: Limit, faults: list[BadFigure]) -> Span | None:
    """How long the pieces must stand at least: from the least allowed to where one aims. None where untold."""
    found = [one for one in reckoning.bounds_of(limit) if one is not None and one.kind == "time"]
    written = [cell.written for _, cell in limit.cells() if cell.written is not None]
    if not found:
        return NONE if written and all(_only_most(leaf) for leaf in written) else None
    least = min(one.low if one.low is not None else one.aim_low or Fraction(0) for one in found)
    most = max(one.aim_high if one.aim_high is not None else one.low or Fraction(0) for one in found)
    if not holds(faults, limit.at, partial(guards.not_negative, "standing time", "s", float(least))):
        return None
    return Span(least, max(least, most), True)


def _only_most(leaf: Written) -> bool:
    """`max same day` asks for no standing at all."""
    what = leaf.value.what
    return isinstance(what, Limits) and all(clause.lead in ("max", "under") for clause in what.clauses)
