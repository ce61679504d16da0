"""A learning curve drawn through what the practice book says, and when it reaches the standard time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import exp, inf, log, sqrt

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import above_zero, one_of, whole
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.chances import student_quantile
from site_builder.skills.proof.demands import between
from site_builder.skills.proof.learning_curve import FORMS, Form, lot_midpoint
from site_builder.skills.proof.straight_line import StraightLine, straight_line

_FAR = 1e9
"""Pieces; what lies further off is never."""

_STEEPEST = 0.01
"""No hand learns or unlearns faster; while a curve is sought through figures gone wild, lots stay in their place."""


@dataclass(frozen=True, slots=True)
class Lot:
    """Pieces made in one go and how long they took together, in any one unit of time.

    ``untimed``: pieces made since the lot before, or since the first piece, of which no time was kept.
    """

    pieces: int
    took: float
    untimed: int = 0


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
    """A curve of one ``form``: ``line`` through the logarithms of time and piece.

    ``ends``: the number of the last piece of each lot, counted from the first piece of all.
    """

    form: Form
    ends: tuple[int, ...]
    line: StraightLine
    confidence: float

    @property
    def made(self) -> int:
        """So many pieces."""
        return self.ends[-1]

    @property
    def first(self) -> float:
        """Time of the first piece on the curve."""
        return _raised(self.line.start)

    @property
    def rate(self) -> float:
        """To what share the time falls with each doubling of pieces."""
        return _raised(self.line.slope * log(2))

    @property
    def rate_limits(self) -> Interval:
        """Limits of the rate at the confidence asked for."""
        off = self._t * self.line.slope_error
        return Interval(_raised((self.line.slope - off) * log(2)), _raised((self.line.slope + off) * log(2)))

    @property
    def scatter(self) -> float:
        """The typical factor by which lots lie off the curve: 1.1 is a tenth up or down."""
        return _raised(self.line.scatter)

    @property
    def learns(self) -> bool:
        """Whether it is sure, at the confidence asked for, that the hand gets faster."""
        return self.rate_limits.high < 1

    def mean_time(self, piece: float) -> tuple[float, Interval]:
        """The curve's own time at a piece (unit form) or average up to it, and limits of the curve there.

        A single lot strays further than that.
        """
        x = log(above_zero("piece", "", piece))
        off = self._t * self.line.error_at(x)
        line = self.line.at(x)
        return _raised(line), Interval(_raised(line - off), _raised(line + off))

    def reaches(self, target: float) -> Reach:
        """When pieces take no longer than ``target``.

        The limits are the pieces at which the curve's band crosses the target (E. C. Fieller's theorem, as used
        to read a line backwards). In the cumulative average form the time of a piece is taken as 1 + slope
        times the average so far, close after the first few.
        """
        above_zero("time to be reached", "", target)
        line, b = self.line, self.line.slope
        level = log(target)
        if self.form == "cumulative average":
            if b <= -1:
                return Reach(1.0, None, None)
            level -= log(1 + b)
        # the band crosses where (a + b·x - level)² = t²·s²·(1/n + (x - x̄)²/w), a square in u = x - x̄
        at_middle = line.at(line.middle) - level
        noise = (self._t * line.scatter) ** 2
        square, straight, free = b * b - noise / line.width, b * at_middle, at_middle**2 - noise / line.points
        likely = self._piece(-at_middle / b) if b < 0 else None
        root = straight**2 - square * free
        if b >= 0 or root < 0 or square == 0:
            return Reach(likely, 1.0 if b < 0 else None, None)
        low, high = sorted(((-straight - sqrt(root)) / square, (-straight + sqrt(root)) / square))
        if square > 0:
            return Reach(likely, self._piece(low), self._piece(high))
        # Learning is not sure, so the band spreads both ways for ever. Above the target it may come down after
        # the later crossing or never; below it, the earlier crossing is behind.
        return Reach(likely, self._piece(high), None) if at_middle > 0 else Reach(likely, 1.0, self._piece(low))

    def _piece(self, off_middle: float) -> float | None:
        x = off_middle + self.line.middle
        return max(1.0, exp(x)) if x < log(_FAR) else None

    @property
    def _t(self) -> float:
        return student_quantile((1 + self.confidence) / 2, self.line.freedom)


def fit_curve(lots: Sequence[Lot], form: Form = "unit", confidence: float = 0.95) -> Fitted:
    """The curve that lies closest to the lots, in the order they were made, from the first piece on.

    A straight line by least squares through the logarithms. In the unit form each lot stands at the piece that
    takes its average time, which depends on the rate and is found by turns; in the cumulative average form at
    its last piece, with the average of all so far, which smooths the points and makes its limits too narrow.
    Every lot weighs the same. Raises ``Impossible`` for fewer than three lots, and for untimed pieces in the
    cumulative average form.
    Source: least squares on the log-linear forms, as RAND RM-6191 (1970) and cost handbooks fit them.
    """
    between("confidence", confidence)
    one_of("form of the curve", form, FORMS)
    if len(lots) < 3:
        raise Impossible("lots", "count", len(lots), "must be at least 3 to tell a curve and how sure it is")
    for lot in lots:
        whole("pieces of a lot", lot.pieces, 1)
        whole("untimed pieces", lot.untimed)
        above_zero("time of a lot", "", lot.took)
    ends = tuple(accumulate(lot.untimed + lot.pieces for lot in lots))
    if form == "cumulative average":
        if any(lot.untimed for lot in lots):
            raise Impossible("untimed pieces", "count", "some", "must be none to average over all so far")
        took = accumulate(lot.took for lot in lots)
        line = straight_line([log(e) for e in ends], [log(t / e) for t, e in zip(took, ends, strict=True)])
        return Fitted(form, ends, line, confidence)
    heights = [log(lot.took / lot.pieces) for lot in lots]
    rate, before = 0.85, inf
    for _ in range(60):
        places = [log(lot_midpoint(e - lot.pieces + 1, e, rate)) for e, lot in zip(ends, lots, strict=True)]
        line = straight_line(places, heights)
        rate, before = min(max(_raised(line.slope * log(2)), _STEEPEST), 1 / _STEEPEST), rate
        if abs(rate - before) < 1e-13:
            break
    return Fitted(form, ends, line, confidence)


def _raised(logarithm: float) -> float:
    """Back from a logarithm; without end where a machine's number ends."""
    return exp(logarithm) if logarithm < 700 else inf
