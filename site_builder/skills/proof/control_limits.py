"""Limits within which single measurements of steady work lie, drawn from the measurements themselves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from statistics import fmean, median
from typing import Literal

from site_builder.formulas.guards import one_of
from site_builder.skills.proof.demands import figures

D2_OF_TWO = 1.128
"""Mean range of two readings, in spreads; 2/√π to the three decimals every table prints and limits are told in."""

MEDIAN_OF_TWO = 0.954
"""Median range of two readings, in spreads, as tables of factors print it."""

By = Literal["mean", "median"]

D4_OF_TWO = 3.267
"""Upper limit of ranges of two, in mean ranges."""

LONG_RUN = 8
"""So many on one side of the mean on end are no accident (Western Electric handbook, 1956)."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Mean, limits and spread of single measurements, in their unit.

    ``range_mean`` and ``range_upper`` are of the moving range, from each measurement to the next. ``outside``,
    ``jumps`` and ``drifted`` are places counted from 1: measurements outside the limits, measurements that lie
    too far from the one before, measurements that end or continue a long run on one side of the mean.
    """

    mean: float
    lower: float
    upper: float
    spread: float
    range_mean: float
    range_upper: float
    outside: tuple[int, ...]
    jumps: tuple[int, ...]
    drifted: tuple[int, ...]

    @property
    def steady(self) -> bool:
        """Whether nothing speaks against one and the same cause behind all of them."""
        return not (self.outside or self.jumps or self.drifted)


def individuals(values: Sequence[float], by: By = "mean") -> Limits:
    """Limits for single measurements in the order they were taken: mean ± 3 mean moving ranges / 1.128.

    Any one unit. By the ``median`` of the moving ranges, over 0.954, one wild measurement does not widen them.
    Raises ``Impossible`` for fewer than two measurements; with fewer than about a dozen the limits
    themselves are loose (common practice).
    Source: NIST/SEMATECH e-Handbook of statistical methods, 6.3.2.2; factors as ASTM and ISO 7870-2 print them.
    """
    figures("measurements", "", values, 2)
    ranges = [abs(b - a) for a, b in pairwise(values)]
    mean, range_mean = fmean(values), fmean(ranges)
    usual = one_of("kind of average", by, ("mean", "median")) == "mean"
    spread = range_mean / D2_OF_TWO if usual else median(ranges) / MEDIAN_OF_TWO
    lower, upper, range_upper = mean - 3 * spread, mean + 3 * spread, D4_OF_TWO * D2_OF_TWO * spread
    return Limits(
        mean=mean,
        lower=lower,
        upper=upper,
        spread=spread,
        range_mean=range_mean,
        range_upper=range_upper,
        outside=tuple(i for i, v in enumerate(values, 1) if not lower <= v <= upper),
        jumps=tuple(i for i, r in enumerate(ranges, 2) if r > range_upper),
        drifted=_drifted(values, mean),
    )


def _drifted(values: Sequence[float], mean: float) -> tuple[int, ...]:
    found: list[int] = []
    at = 0
    for side, run in groupby(values, key=lambda v: (v > mean) - (v < mean)):
        length = sum(1 for _ in run)
        if side and length >= LONG_RUN:
            found += range(at + LONG_RUN, at + length + 1)
        at += length
    return tuple(found)
