"""From times observed to a standard time, and how many timings are enough."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt
from statistics import fmean
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import above_zero, lost_share, not_negative, one_of
from site_builder.skills.proof.chances import normal_quantile
from site_builder.skills.proof.demands import between, figures

AllowanceOf = Literal["job time", "work day"]


@dataclass(frozen=True, slots=True)
class Enough:
    """Timings ``needed`` for the closeness asked for (``exactly`` before rounding up), had, and still ``more``."""

    exactly: float
    had: int

    @property
    def needed(self) -> int:
        """Rounded up; one at least."""
        return max(1, ceil(self.exactly - 1e-9))

    @property
    def more(self) -> int:
        """Still to be taken."""
        return max(0, self.needed - self.had)


@dataclass(frozen=True, slots=True)
class Element:
    """A part of the work with its timings, in one unit, and the pace they were taken at (1 is the usual one)."""

    readings: Sequence[float]
    pace: float = 1.0


@dataclass(frozen=True, slots=True)
class Standard:
    """Observed, normal and standard time of a piece, and the most timings any of its elements needs."""

    observed: float
    normal: float
    standard: float
    enough: Enough


def normal_time(observed: float, pace: float) -> float:
    """The time at the usual pace: observed times pace, 1 for 100 %. Any unit of time.

    Raises ``Impossible`` for a time or pace of nothing.
    Source: International Labour Office, Introduction to work study, rating (called basic time there).
    """
    return above_zero("observed time", "", observed) * above_zero("pace", "", pace)


def allowance_factor(allowance: float, of: AllowanceOf) -> float:
    """What the normal time is multiplied by.

    An allowance that is a share *of job time* is added to the work: 1 + A. One that is a share *of the work
    day* is taken out of the day: 1 / (1 - A), which is more. Sources mix them up; say which is meant.
    Raises ``Impossible`` for an allowance under 0, or one that leaves nothing of the day.
    Source: time study as operations textbooks teach it; the Labour Office adds a percentage of basic time.
    """
    if one_of("what the allowance is a share of", of, ("job time", "work day")) == "job time":
        return 1 + not_negative("allowance", "share", allowance)
    return 1 / (1 - lost_share("allowance", allowance))


def standard_time(normal: float, allowance: float, of: AllowanceOf) -> float:
    """Normal time with its allowance. Raises ``Impossible`` as ``allowance_factor``; source there."""
    return above_zero("normal time", "", normal) * allowance_factor(allowance, of)


def timings_needed(
    readings: Sequence[float],
    closeness: float = 0.05,
    confidence: float = 0.95,
    *,
    absolute: bool = False,
    spread: Literal["sample", "Labour Office"] = "sample",
) -> Enough:
    """How many timings bring the mean within ``closeness`` of the truth, judged by those taken so far.

    ``closeness`` is a share of the mean, or an ``absolute`` time. The usual sample spread divides by n - 1;
    the Labour Office's formula, (40 √(nΣx² - (Σx)²) / Σx)², by n, and its 40 stands for ±5 % at z = 2,
    which is 95.45 %. Raises ``Impossible`` for fewer than two readings or one of nothing.
    Source: International Labour Office, Introduction to work study, statistical method.
    """
    figures("timings", "", readings, 2)
    for reading in readings:
        above_zero("timing", "", reading)
    above_zero("closeness", "", closeness)
    one_of("formula of the spread", spread, ("sample", "Labour Office"))
    z = normal_quantile((1 + between("confidence", confidence)) / 2)
    mean = fmean(readings)
    squares = sum((x - mean) ** 2 for x in readings)
    deviation = sqrt(squares / (len(readings) - (spread == "sample")))
    return Enough((z * deviation / (closeness if absolute else closeness * mean)) ** 2, len(readings))


def time_study(
    elements: Sequence[Element],
    allowance: float,
    of: AllowanceOf,
    closeness: float = 0.05,
    confidence: float = 0.95,
) -> Standard:
    """The standard time of work in several elements, each timed and paced by itself.

    Raises ``Impossible`` for no elements or an element with fewer than two timings. Source: as above.
    """
    if not elements:
        raise Impossible("elements", "count", 0, "must be at least one")
    enough = [timings_needed(e.readings, closeness, confidence) for e in elements]
    observed = [fmean(e.readings) for e in elements]
    normal = sum(normal_time(time, e.pace) for time, e in zip(observed, elements, strict=True))
    most = max(enough, key=lambda e: (e.more, e.exactly))
    return Standard(sum(observed), normal, standard_time(normal, allowance, of), most)
