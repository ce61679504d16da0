"""Two ends of a figure that is not known better, and functions reckoned over them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from math import isnan
from numbers import Real

from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class Interval:
    """From ``low`` to ``high``, both ends in it; an end may be infinite. Raises ``Impossible`` when crossed."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not all(isinstance(end, Real) and not isnan(end) for end in (self.low, self.high)):
            raise Impossible("interval", "", f"{self.low} to {self.high}", "must have two ends")
        if self.low > self.high:
            raise Impossible("interval", "", f"{self.low:g} to {self.high:g}", "must run from low to high")

    @classmethod
    def around(cls, middle: float, each_side: float) -> Interval:
        """The middle and so much on each side."""
        return cls(middle - abs(each_side), middle + abs(each_side))

    @property
    def middle(self) -> float:
        """Half way between the ends."""
        return (self.low + self.high) / 2

    def __contains__(self, figure: float) -> bool:
        return self.low <= figure <= self.high

    def __and__(self, other: Interval) -> Interval | None:
        """What both have, a single point included; None where they do not meet."""
        low, high = max(self.low, other.low), min(self.high, other.high)
        return Interval(low, high) if low <= high else None


def spread(function: Callable[..., float], *figures: float | Interval, **named: float | Interval) -> Interval:
    """The least and most a function gives when some of its figures are only known as intervals.

    Reckons it at every corner of the intervals. That is exact for a function which, in each figure by itself,
    only rises or only falls, as the trade's do; it is not for one that turns back between the ends.

    >>> spread(lambda a, b: a / b, Interval(6, 8), Interval(2, 4))
    Interval(low=1.5, high=4.0)
    """
    keys = list(named)
    given = (*figures, *named.values())
    ends = [(figure,) if not isinstance(figure, Interval) else (figure.low, figure.high)
            if figure.low < figure.high else (figure.low,) for figure in given]
    found = [
        function(*corner[: len(figures)], **dict(zip(keys, corner[len(figures) :], strict=True)))
        for corner in product(*ends)
    ]
    return Interval(min(found), max(found))
