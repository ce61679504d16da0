"""How long the pieces stand at least, after a step or at the end, before the work may go on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import partial

from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.span import NONE, Span
from site_builder.batch.variant import cells_holding, holding
from site_builder.formulas import guards
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.reckoning import Reckoning
from site_builder.quantity import Limits


def waits_of(own: Procedure, chosen: Mapping[str, str]) -> Iterator[Limit]:
    """The waits after a step and at the end: of the steps that may hold, cell by cell."""
    steps = holding(own.steps, chosen)
    told = [step.wait for step in steps[:-1]]
    told.append(own.wait or (steps[-1].wait if steps else ()))
    for limits in told:
        for limit in holding(limits, chosen):
            yield from cells_holding(limit, chosen)


def standing(reckoning: Reckoning, limit: Limit, faults: list[BadFigure]) -> Span | None:
    """How long the pieces must stand at least: from the least allowed to where one aims. None where untold."""
    found = [one for one in reckoning.bounds_of(limit) if one is not None and one.kind == "time"]
    if not found:
        return NONE if limit.written is not None and _only_most(limit.written) else None
    least = min(one.low if one.low is not None else one.aim_low or Fraction(0) for one in found)
    most = max(one.aim_high if one.aim_high is not None else one.low or Fraction(0) for one in found)
    if not holds(faults, limit.at, partial(guards.not_negative, "standing time", "s", float(least))):
        return None
    return Span(least, max(least, most), True)


def _only_most(leaf: Written) -> bool:
    """`max same day` asks for no standing at all."""
    what = leaf.value.what
    return isinstance(what, Limits) and all(clause.lead in ("max", "under") for clause in what.clauses)
