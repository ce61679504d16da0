"""How long one operation takes for a whole batch."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from site_builder.formulas import guards
from site_builder.quantity import Value, bounds

NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class WorkTime:
    """Seconds of work: once to set up, for each piece, for each load of ``load_size`` pieces, for the lot."""

    setup: Fraction = NOTHING
    each: Fraction = NOTHING
    load: Fraction = NOTHING
    lot: Fraction = NOTHING
    load_size: Fraction | None = None


def batch_time(time: WorkTime, pieces: int | Fraction) -> Fraction | None:
    """Seconds of work for so many pieces done in one go.

    Setting up and the lot count once, pieces each, and loads as often as they are begun: a load that is not
    full takes as long as a full one. None where a load has a time and no size: then nobody can tell.
    Scrap, waiting and pauses are not in it. Raises ``Impossible`` for no pieces, or a load of less than one.
    Source: batch time, Groover, Automation, Production Systems and Computer-Integrated Manufacturing, chapter 2.

    >>> batch_time(WorkTime(setup=Fraction(20 * 60), each=Fraction(5 * 60)), 260)
    Fraction(79200, 1)
    """
    guards.above_zero("pieces", "count", pieces)
    for what in ("setup", "each", "load", "lot"):
        guards.not_negative(f"{what} time", "s", getattr(time, what))
    total = time.setup + time.lot + time.each * pieces
    if not time.load:
        return total
    if time.load_size is None:
        return None
    guards.at_least("load", "pieces", time.load_size, 1, "least load")
    return total + time.load * ceil(pieces / time.load_size)


def working_days(seconds: Fraction, hours_a_day: Fraction) -> Fraction:
    """Days of one pair of hands that work so many hours a day. Raises ``Impossible`` for a day without work.

    Source: as ``batch_time``.
    """
    guards.not_negative("work", "s", seconds)
    guards.within("working day", "h", guards.above_zero("working day", "h", hours_a_day), 0, 24)
    return seconds / (hours_a_day * 3600)


def time_to_reckon_with(value: Value) -> tuple[Fraction, bool] | None:
    """Seconds to reckon a batch with, and whether they are rough: where one aims, or the middle of a range.

    None where no time is told. Source: the middle of a range, common practice.

    >>> time_to_reckon_with(parse_value("about 4..6 min"))
    (Fraction(300, 1), True)
    """
    found = bounds(value)
    if found is None or found.kind != "time":
        return None
    low, high = (found.aim_low, found.aim_high) if found.aim_low is not None else (found.low, found.high)
    if low is None or high is None:
        return None
    return (low + high) / 2, found.rough or low != high or value.perhaps
