"""Limits on a sum, with what their parts come to."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import once, reckoning
from site_builder.checks.rules.values.limits import limits_of
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Bounds, same_dimensions

Figure = Fraction | None
_CLOCK = ((86400, "d"), (3600, "h"), (60, "min"), (1, "s"))
_SHORTEST = 2
"""A span shorter than two of a unit is told in the next smaller one."""


@once
def sums(analysis: Analysis) -> tuple[tuple[Limit, Written, Place, Bounds, Bounds], ...]:
    """Every limit on a sum of which both figures can be told: the limit's and that of its parts."""
    return tuple(_sums(analysis))


def _sums(analysis: Analysis) -> Iterator[tuple[Limit, Written, Place, Bounds, Bounds]]:
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        if limit.sum and limit.written is not None:
            whole, parts = held.bounds(limit.written), held.sum_of(limit)
            if whole is not None and parts is not None and same_dimensions(whole.unit, parts.unit):
                yield limit, limit.written, place, whole, parts


def ends(found: Bounds) -> tuple[Figure, Figure]:
    """Between which figures a value lies: its limits, or where it aims if it has none."""
    return (found.low, found.high) if found.limited else (found.aim_low, found.aim_high)


def shown(like: Bounds, figure: Fraction) -> str:
    """A base figure to four digits, in the unit of another value; a time in the unit that suits its length."""
    if like.kind == "time":
        factor, name = next((one for one in _CLOCK if abs(figure) >= one[0] * _SHORTEST), _CLOCK[-1])
        return f"{float(figure / factor):.4g} {name}"
    unit = like.unit
    return f"{float(like.shown(figure)):.4g} {unit.named(False)}".rstrip()
