"""Limits on a sum, with what their parts come to."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import limits_of
from site_builder.checks.survey import Survey
from site_builder.notebook.index import Place
from site_builder.notebook.model.leaves import Written
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import Bounds, same_dimensions

Figure = Fraction | None


def sums(survey: Survey) -> Iterator[tuple[Limit, Written, Place, Bounds, Bounds]]:
    """Every limit on a sum of which both figures can be told: the limit's and that of its parts."""
    held = reckoning(survey)
    for limit, place in limits_of(survey):
        if limit.sum and limit.written is not None:
            whole, parts = held.bounds(limit.written), held.sum_of(limit)
            if whole is not None and parts is not None and same_dimensions(whole.unit, parts.unit):
                yield limit, limit.written, place, whole, parts


def ends(found: Bounds) -> tuple[Figure, Figure]:
    """Between which figures a value lies: its limits, or where it aims if it has none."""
    return (found.low, found.high) if found.limited else (found.aim_low, found.aim_high)


def shown(like: Bounds, figure: Fraction) -> str:
    """A base figure in the unit of another value, to four figures."""
    unit = like.unit
    return f"{float(like.shown(figure)):.4g} {unit.named(False)}".rstrip()
