"""When something that comes round by the calendar is due again."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from fractions import Fraction

from site_builder.quantity import Cadence, Every, Quantity

_MONTHS = {"y": 12, "mo": 1}
_DAYS = {"wk": 7, "d": 1}


def months_later(day: date, months: int) -> date:
    """The same day of a later month; where that month is too short, its last day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def next_due(last: date, cadence: Cadence) -> date | None:
    """The day on which it is due again, done ``last``: the earliest of the rhythms told in calendar units.

    None where the rhythm is counted in pieces, hours or events: no calendar can tell those.
    """
    days = [_later(last, item.amount) for item in cadence.items
            if isinstance(item, Every) and isinstance(item.amount, Quantity)]
    return min((day for day in days if day is not None), default=None)


def _later(day: date, amount: Quantity) -> date | None:
    months, days = Fraction(0), Fraction(0)
    for part in amount.parts:
        symbol, number = part.unit.symbol, part.number.exact
        if symbol in _MONTHS:
            months += number * _MONTHS[symbol]
        elif symbol in _DAYS:
            days += number * _DAYS[symbol]
        else:
            return None
    # A part of a month has no day of its own: 30 days to the month, rounded down, is never late.
    days += (months % 1) * 30
    try:
        return months_later(day, int(months)) + timedelta(days=int(days))
    except (ValueError, OverflowError):
        return None
