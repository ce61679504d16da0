"""Limits for work that is measured in small lots: a chart of their means beside one of their ranges or spreads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, lgamma, sqrt
from statistics import fmean, stdev

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import some, whole
from site_builder.skills.proof.demands import figures

_RANGES: Mapping[int, tuple[float, float]] = {
    2: (1.12838, 0.85250), 3: (1.69257, 0.88837), 4: (2.05875, 0.87981), 5: (2.32593, 0.86408),
    6: (2.53441, 0.84804), 7: (2.70436, 0.83321), 8: (2.84720, 0.81983), 9: (2.97003, 0.80783),
    10: (3.07751, 0.79705),
}
"""d2 and d3 by the readings of a lot: mean and deviation of the range of so many, in spreads, to two places
more than tables of factors print them (from memory; held against Walpole and others, table A.22)."""
_MOST_LOTS = 100_000


@dataclass(frozen=True, slots=True)
class Factors:
    """Factors of the charts for lots of so many readings, by their usual letters.

    ``d2`` and ``d3`` are mean and deviation of the range, ``c4`` the mean of the standard deviation, in spreads.
    Limits of the means are ``A2`` mean ranges or ``A3`` mean deviations from the mean; those of ranges lie at ``D3``
    and ``D4`` mean ranges, those of deviations at ``B3`` and ``B4`` mean deviations.
    """

    d2: float
    d3: float
    c4: float
    A2: float
    A3: float
    D3: float
    D4: float
    B3: float
    B4: float


@dataclass(frozen=True, slots=True)
class Charted:
    """Limits of one chart in the unit of the readings, and the places, from 1, of lots that lie outside."""

    middle: float
    lower: float
    upper: float
    outside: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Lots:
    """Both charts, and the ``spread`` within the lots."""

    means: Charted
    within: Charted
    spread: float

    @property
    def steady(self) -> bool:
        """Whether no lot lies outside on either chart."""
        return not (self.means.outside or self.within.outside)


def factors(readings: int) -> Factors:
    """The factors for lots of 2 to 10 readings.

    Raises ``Impossible`` for other lots. Source: d2 and d3 as tables print them; the others follow from them and from
    c4 = √(2 / (n - 1)) Γ(n/2) / Γ((n - 1)/2) at three deviations: NIST/SEMATECH e-Handbook, 6.3.2.1.
    """
    n = whole("readings of a lot", readings, 2, 10)
    d2, d3 = _RANGES[n]
    c4 = sqrt(2 / (n - 1)) * exp(lgamma(n / 2) - lgamma((n - 1) / 2))
    of_range, of_deviation = 3 * d3 / d2, 3 * sqrt(1 - c4**2) / c4
    return Factors(
        d2, d3, c4, 3 / (d2 * sqrt(n)), 3 / (c4 * sqrt(n)),
        max(1 - of_range, 0.0), 1 + of_range, max(1 - of_deviation, 0.0), 1 + of_deviation,
    )


def mean_and_range(lots: Sequence[Sequence[float]]) -> Lots:
    """Charts of means and ranges of lots that are all as large, 2 to 10 readings, in their order; in any one unit.

    Raises ``Impossible`` for lots of several sizes, or fewer than two. Source: NIST/SEMATECH e-Handbook, 6.3.2.1.
    """
    by = factors(_size(lots))
    ranges = [max(lot) - min(lot) for lot in lots]
    middle = fmean(ranges)
    means = _charted([fmean(lot) for lot in lots], by.A2 * middle)
    return Lots(means, _between(ranges, middle, by.D3 * middle, by.D4 * middle), middle / by.d2)


def mean_and_deviation(lots: Sequence[Sequence[float]]) -> Lots:
    """Charts of means and standard deviations of lots that are all as large, 2 to 10 readings, in any one unit.

    Raises ``Impossible`` as ``mean_and_range``. Source: NIST/SEMATECH e-Handbook, 6.3.2.1.
    """
    by = factors(_size(lots))
    deviations = [stdev(lot) for lot in lots]
    middle = fmean(deviations)
    means = _charted([fmean(lot) for lot in lots], by.A3 * middle)
    return Lots(means, _between(deviations, middle, by.B3 * middle, by.B4 * middle), middle / by.c4)


def _size(lots: Sequence[Sequence[float]]) -> int:
    some("lots", "", lots)
    whole("lots", len(lots), 2, _MOST_LOTS)
    size = len(lots[0])
    for lot in lots:
        if len(lot) != size:
            raise Impossible("readings of a lot", "count", len(lot), f"must be as many in every lot, {size}")
        figures("readings", "", lot, 2)
    return size


def _charted(values: Sequence[float], each_side: float) -> Charted:
    middle = fmean(values)
    return _between(values, middle, middle - each_side, middle + each_side)


def _between(values: Sequence[float], middle: float, lower: float, upper: float) -> Charted:
    hair = 1e-12 * max(abs(lower), abs(upper))
    outside = (i for i, value in enumerate(values, 1) if not lower - hair <= value <= upper + hair)
    return Charted(middle, lower, upper, tuple(outside))
