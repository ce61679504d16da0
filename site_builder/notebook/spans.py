"""How long after a day: ages, and how long papers, calibrations and practice are good for.

Months and years go by the calendar, so that a person born on 19 June is sixteen on 19 June; every other span
is counted in days.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta
from fractions import Fraction

from site_builder.quantity import Value, bounds

_DAY = 86_400
_MONTH = 2_629_800
"""Seconds in the month of the notation, a twelfth of 365.25 days; whole numbers of it are months."""


def day_after(day: date, seconds: Fraction) -> date:
    """The day so long after another. From the end of a long month it falls on the end of a shorter one."""
    months, rest = divmod(seconds, _MONTH)
    try:
        if rest:
            return day + timedelta(days=int(seconds // _DAY))
        years, month = divmod(day.year * 12 + day.month - 1 + int(months), 12)
        return date(years, month + 1, min(day.day, monthrange(years, month + 1)[1]))
    except (OverflowError, ValueError):  # beyond the calendar: never
        return date.max if seconds > 0 else date.min


def least_span(value: Value) -> Fraction | None:
    """The shortest span that a value accepts, in seconds: of `min 16 y` and of `16 y` the 16 y."""
    found = bounds(value)
    if found is None or found.kind != "time":
        return None
    return found.low if found.limited else found.aim_low


def longest_span(value: Value) -> Fraction | None:
    """The longest span that a value accepts, in seconds: of `max 12 mo` and of `12 mo` the 12 mo."""
    found = bounds(value)
    if found is None or found.kind != "time":
        return None
    return found.high if found.limited else found.aim_high
