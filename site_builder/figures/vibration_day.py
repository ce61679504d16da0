"""Hand-arm vibration: A(8) and points of a full day of each work, and how long until the action value."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from site_builder.figures.amounts import about, between, lapse
from site_builder.figures.at_machines import AtMachine, Shift, shift_of, strongest
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given
from site_builder.formulas.interval import Interval
from site_builder.safety.verdict import VIBRATION, Verdict, verdict
from site_builder.safety.vibration import ACTION, LIMIT, Grip, daily_exposure, hours_until, points_of

SOURCE = "ISO 5349-1:2001; Directive 2002/44/EC; HSE exposure points"


class ShakenDay(NamedTuple):
    """A(8) of a day in m/s², at least and at most."""

    a8: Interval
    rough: bool

    @property
    def verdict(self) -> Verdict:
        """Where the day stands, at the most it may be."""
        return verdict(VIBRATION, self.a8.high)


class ShakenWork(NamedTuple):
    """A full day of a work with the hands at the machine of it that shakes most."""

    at: AtMachine
    shift: Shift
    day: ShakenDay


def shaken_work(known: FigureInputs, procedure: str) -> ShakenWork | None:
    """A full day of a procedure; None where no machine of it tells its vibration. Raises ``Impossible``."""
    at = strongest(known, procedure, "vibration")
    if at is None:
        return None
    shift = shift_of(known)
    return ShakenWork(at, shift, shared_day([(at, shift.hours)]))


def shared_day(works: Sequence[tuple[AtMachine, float]]) -> ShakenDay:
    """A day of so many hours of each of several works. Raises ``Impossible`` for a vibration or time that is none."""
    ends = [
        daily_exposure([Grip(getattr(at.given.span, end), getattr(at.share, end) * hours) for at, hours in works])
        for end in ("low", "high")
    ]
    return ShakenDay(Interval(ends[0], ends[1]), any(at.given.rough for at, _ in works))


# ---------------------------------------------------------------------- words


def day_words(day: ShakenDay) -> str:
    """``A(8) of about 2 m/s², 62 points``."""
    a8 = about(f"{between(day.a8.low, day.a8.high, 2)}{NO_BREAK}m/s²", day.rough)
    points = between(points_of(day.a8.low), points_of(day.a8.high), 2)
    return f"A(8) of {a8}, {points} points where the action value is 100 and the limit value 400"


def time_left(given: Given) -> str:
    """When the action value and the limit value are reached with the hands on it all the time."""
    told = []
    for name, value in (("action value", ACTION), ("limit value", LIMIT)):
        low, high = (hours_until(end, value) for end in (given.span.high, given.span.low))
        if low < 24:
            ends = lapse(low, high) if high < 24 else f"{lapse(low, low)} or more"
            told.append(f"the {name}, {value:g}{NO_BREAK}m/s², after {about(ends, given.rough)}")
    if not told:
        return "With the hands on it all day neither the action value nor the limit value is reached."
    rest = "" if len(told) > 1 else "; the limit value is not reached in a day"
    return f"With the hands on it all the time they reach {' and '.join(told)}{rest}."
