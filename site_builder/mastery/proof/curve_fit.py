"""A learning curve drawn through what the practice book says, and when it reaches the standard time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log, sqrt

from site_builder.craft.errors import Impossible
from site_builder.craft.guards import above_zero, whole
from site_builder.craft.interval import Interval
from site_builder.mastery.proof.chances import student_quantile
from site_builder.mastery.proof.demands import between
from site_builder.mastery.proof.learning_curve import Form, lot_midpoint, slope

_FAR = 1e9
"""Pieces; what lies further off is never."""


@dataclass(frozen=True, slots=True)
class Lot:
    """Pieces made in one go and how long they took together, in any one unit of time."""

    pieces: int
    took: float


@dataclass(frozen=True, slots=True)
class Reach:
    """The piece at which the standard time is likely reached, and the earliest and latest it may be.

    None is never: the hand does not get faster, or it cannot yet be told from one that does not.
    """

    piece: float | None
    earliest: float | None
    latest: float | None


@dataclass(frozen=True, slots=True)
class Fitted:
    """A curve of one ``form``: time of the ``first`` piece, ``rate``, the limits of the rate, and the typical
    factor ``scatter`` by which lots lie off the curve (1.1: a tenth up or down)."""

    form: Form
    first: float
    rate: float
    rate_limits: Interval
    scatter: float
    confidence: float
    made: int
    _freedom: int
    _middle: float
    _width: float
    _lots: int

    def mean_time(self, piece: float) -> tuple[float, Interval]:
        """The curve's own time at a piece (unit form) or average up to it, and limits of the curve there.

        A single lot strays further than that.
        """
        x = log(above_zero("piece", "", piece))
        line = log(self.first) + slope(self.rate) * x
        off = self._t * self._sigma * sqrt(1 / self._lots + (x - self._middle) ** 2 / self._width)
        return exp(line), Interval(exp(line - off), exp(line + off))

    @property
    def learns(self) -> bool:
        """Whether it is sure, at the confidence asked for, that the hand gets faster."""
        return self.rate_limits.high < 1

    def reaches(self, target: float) -> Reach:
        """When pieces take no longer than ``target``.

        The limits are the pieces at which the curve's band crosses the target (E. C. Fieller's theorem, as used
        to read a line backwards). In the cumulative average form the time of a piece is taken as 1 + slope
        times the average so far, close after the first few.
        """
        above_zero("time to be reached", "", target)
        b = slope(self.rate)
        level = log(target)
        if self.form == "cumulative average":
            if b <= -1:
                return Reach(1.0, None, None)
            level -= log(1 + b)
        # the band (a + b·x - level)² = t²·s²·(1/n + (x - x̄)²/w) crosses where this square in u = x - x̄ is nothing
        at_middle = log(self.first) + b * self._middle - level
        noise = (self._t * self._sigma) ** 2
        square, straight, free = b * b - noise / self._width, b * at_middle, at_middle**2 - noise / self._lots
        root = straight**2 - square * free
        ends: list[float | None] = [None, None]
        if square > 0 and b < 0 and root >= 0:
            ends = [self._piece((-straight - sqrt(root)) / square), self._piece((-straight + sqrt(root)) / square)]
        elif root >= 0 and square < 0:
            # learning is not sure: the band may cross once at an early piece, and never need come down
            crossings = sorted(((-straight - sqrt(root)) / square, (-straight + sqrt(root)) / square))
            later = [u for u in crossings if at_middle + b * u <= 0 or u > 0]
            ends = [self._piece(later[0]) if later else None, None]
        return Reach(self._piece(-at_middle / b) if b < 0 else None, ends[0], ends[1])

    def _piece(self, off_middle: float) -> float | None:
        x = off_middle + self._middle
        return max(1.0, exp(x)) if x < log(_FAR) else None

    @property
    def _t(self) -> float:
        return student_quantile((1 + self.confidence) / 2, self._freedom)

    @property
    def _sigma(self) -> float:
        return log(self.scatter)


def fit_curve(lots: Sequence[Lot], form: Form = "unit", confidence: float = 0.95) -> Fitted:
    """The curve that lies closest to the lots, in the order they were made, from the first piece on.

    A straight line by least squares through the logarithms. In the unit form each lot stands at the piece that
    takes its average time, which depends on the rate and is found by turns; in the cumulative average form at
    its last piece, with the average of all so far, which smooths the points and makes its limits too narrow.
    Every lot weighs the same. Raises ``Impossible`` for fewer than three lots, or all at one place.
    Source: least squares on the log-linear forms, as RAND RM-6191 (1970) and cost handbooks fit them.
    """
    between("confidence", confidence)
    if len(lots) < 3:
        raise Impossible("lots", "count", len(lots), "must be at least 3 to tell a curve and how sure it is")
    for lot in lots:
        whole("pieces of a lot", lot.pieces, 1)
        above_zero("time of a lot", "", lot.took)
    if form == "cumulative average":
        made, took, x, y = 0, 0.0, [], []
        for lot in lots:
            made, took = made + lot.pieces, took + lot.took
            x.append(log(made))
            y.append(log(took / made))
        line = _line(x, y)
    else:
        ends = [sum(lot.pieces for lot in lots[: i + 1]) for i in range(len(lots))]
        made = ends[-1]
        y = [log(lot.took / lot.pieces) for lot in lots]
        rate, before = 0.85, inf
        for _ in range(60):
            x = [log(lot_midpoint(e - lot.pieces + 1, e, rate)) for e, lot in zip(ends, lots, strict=True)]
            line = _line(x, y)
            rate, before = 2.0 ** line[1], rate
            if abs(rate - before) < 1e-13:
                break
    start, b, sigma, middle, width = line
    freedom = len(lots) - 2
    off = student_quantile((1 + confidence) / 2, freedom) * sigma / sqrt(width)
    return Fitted(
        form=form,
        first=exp(start),
        rate=2.0**b,
        rate_limits=Interval(2.0 ** (b - off), 2.0 ** (b + off)),
        scatter=exp(sigma),
        confidence=confidence,
        made=made,
        _freedom=freedom,
        _middle=middle,
        _width=width,
        _lots=len(lots),
    )


def _line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float, float, float, float]:
    """Start, slope, spread around the line, and the middle and width of the x."""
    count = len(x)
    x_mean, y_mean = sum(x) / count, sum(y) / count
    width = sum((v - x_mean) ** 2 for v in x)
    if not width > 0:
        raise Impossible("lots", "", "all at one piece", "must lie at different pieces")
    b = sum((v - x_mean) * (w - y_mean) for v, w in zip(x, y, strict=True)) / width
    start = y_mean - b * x_mean
    left = sum((w - start - b * v) ** 2 for v, w in zip(x, y, strict=True))
    return start, b, sqrt(left / (count - 2)), x_mean, width
