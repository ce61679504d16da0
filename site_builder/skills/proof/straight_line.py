"""The straight line that lies closest to points, and how sure it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import finite
from site_builder.skills.proof.demands import figures


@dataclass(frozen=True, slots=True)
class StraightLine:
    """``start + slope · x``; ``scatter`` of the points about it; the ``middle`` of the x, their ``width``, the sum
    of squares about the middle, and the number of ``points``."""

    start: float
    slope: float
    scatter: float
    middle: float
    width: float
    points: int

    @property
    def freedom(self) -> int:
        """Degrees of freedom of the scatter."""
        return self.points - 2

    @property
    def slope_error(self) -> float:
        """Standard error of the slope."""
        return self.scatter / sqrt(self.width)

    @property
    def start_error(self) -> float:
        """Standard error of the start."""
        return self.error_at(0.0)

    def at(self, x: float) -> float:
        """The line at a place."""
        return self.start + self.slope * finite("place", "", x)

    def error_at(self, x: float) -> float:
        """Standard error of the line at a place."""
        return self.scatter * sqrt(1 / self.points + (finite("place", "", x) - self.middle) ** 2 / self.width)


def straight_line(x: Sequence[float], y: Sequence[float]) -> StraightLine:
    """Least squares through points at ``x`` with heights ``y``.

    Raises ``Impossible`` for fewer than three points, or all at one x.
    Source: any textbook of statistics; NIST certifies values to check it with.
    """
    figures("places", "", x, 3)
    figures("heights", "", y, 3)
    if len(x) != len(y):
        raise Impossible("heights", "count", len(y), f"must be as many as places, {len(x)}")
    count = len(x)
    x_mean, y_mean = fsum(x) / count, fsum(y) / count
    width = fsum((v - x_mean) ** 2 for v in x)
    if not width > 0:
        raise Impossible("places", "", "all the same", "must differ")
    slope = fsum((v - x_mean) * (w - y_mean) for v, w in zip(x, y, strict=True)) / width
    start = y_mean - slope * x_mean
    left = fsum((w - start - slope * v) ** 2 for v, w in zip(x, y, strict=True))
    return StraightLine(start, slope, sqrt(left / (count - 2)), x_mean, width, count)
