"""A chain of sizes through an assembly: what is left between them when every part is within its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, hypot, sqrt

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a chain, all in one unit of length: ``nominal`` with its ``lower`` and ``upper`` deviation.

    ``factor`` is how far the gap at the end moves when this size grows by one: +1 for the housing, -1 for what
    stands in it, 1/2 for a diameter that counts by its radius. ``measured`` are readings of real parts; where
    there are two or more, they tell the spread instead of the limits. Raises ``Impossible`` for deviations the
    wrong way round or a size that moves nothing.
    """

    name: str
    nominal: float
    lower: float
    upper: float
    factor: float = 1.0
    measured: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        for figure in (self.nominal, self.lower, self.upper, *self.measured):
            guards.finite(f"size of {self.name}", "length", figure)
        guards.at_least(f"upper deviation of {self.name}", "length", self.upper, self.lower, "lower deviation")
        if guards.finite(f"factor of {self.name}", "", self.factor) == 0:
            raise Impossible(f"factor of {self.name}", "", self.factor, "must be other than 0")

    @property
    def middle(self) -> float:
        """Half way between the limits."""
        return self.nominal + (self.lower + self.upper) / 2

    @property
    def half_width(self) -> float:
        """The tolerance, counted to each side of the middle."""
        return (self.upper - self.lower) / 2

    @property
    def mean(self) -> float:
        """What the parts really are on average: of the readings if there are two, else the middle."""
        return fsum(self.measured) / len(self.measured) if len(self.measured) > 1 else self.middle

    @property
    def deviation(self) -> float:
        """The standard deviation of the parts: of the readings if there are two, else a sixth of the tolerance.

        A sixth says that 99.7 % of the parts lie within the limits, as root sum square takes for granted.
        """
        if len(self.measured) < 2:
            return self.half_width / 3
        mean = self.mean
        return sqrt(fsum((reading - mean) ** 2 for reading in self.measured) / (len(self.measured) - 1))


@dataclass(frozen=True, slots=True)
class Part:
    """How much of the spread of the gap one size causes, as a share of 1."""

    name: str
    share: float


def worst_case(sizes: Sequence[Size]) -> Interval:
    """The narrowest and widest gap when every size stands at its worst limit at once.

    Same unit of length as the sizes. Nothing within its limits can come outside. Raises ``Impossible`` for an
    empty chain. Source: arithmetical tolerancing, e.g. Scholz, Tolerance Stack Analysis Methods, Boeing 1995.
    """
    guards.some("chain", "length", sizes)
    return Interval.around(_middle(sizes), fsum(abs(size.factor) * size.half_width for size in sizes))


def root_sum_square(sizes: Sequence[Size]) -> Interval:
    """The gap that all but about 3 in 1000 assemblies keep, when sizes vary each for itself around the middle.

    Same unit of length as the sizes. Raises ``Impossible`` for an empty chain. Source: simple statistical
    tolerancing, Scholz, Tolerance Stack Analysis Methods, Boeing 1995.
    """
    guards.some("chain", "length", sizes)
    return Interval.around(_middle(sizes), hypot(*(size.factor * size.half_width for size in sizes)))


def expected_gap(sizes: Sequence[Size]) -> float:
    """The gap of the average assembly, in the sizes' unit. Raises ``Impossible`` for an empty chain.

    Source: mean of a sum, any handbook of statistics.
    """
    guards.some("chain", "length", sizes)
    return fsum(size.factor * size.mean for size in sizes)


def gap_deviation(sizes: Sequence[Size]) -> float:
    """The standard deviation of the gap, in the sizes' unit, when sizes vary each for itself.

    Raises ``Impossible`` for an empty chain. Source: variance of a sum, as ``root_sum_square``.
    """
    guards.some("chain", "length", sizes)
    return hypot(*(size.factor * size.deviation for size in sizes))


def matters_most(sizes: Sequence[Size]) -> tuple[Part, ...]:
    """Which size causes how much of the spread, the greatest first; the shares sum to 1.

    Sizes that do not vary at all share nothing, and a chain without any spread gives 0 for each. Raises
    ``Impossible`` for an empty chain. Source: share of the variance, Torkia, Tolerance Analysis using Root Sum
    Squares, 2010; tolanalysis.com prints it for its example.
    """
    total = gap_deviation(sizes)
    parts = [Part(size.name, (size.factor * size.deviation / total) ** 2 if total else 0.0) for size in sizes]
    return tuple(sorted(parts, key=lambda part: -part.share))


def _middle(sizes: Sequence[Size]) -> float:
    return fsum(size.factor * size.middle for size in sizes)
