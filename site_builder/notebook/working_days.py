"""The days on which a shop works, by its calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from site_builder.notebook.model.shop import Calendar
from site_builder.notebook.model.small import WEEKDAYS

_USUAL = frozenset(WEEKDAYS[:5])
"""Where the shop does not tell its days: Monday to Friday."""


def working_days(calendar: Calendar | None, first: date, last: date) -> Iterator[date]:
    """The working days from the first to the last, both in it; none where the last comes first."""
    days = frozenset(map(str, calendar.days)) if calendar is not None and calendar.days else _USUAL
    closed = [(span.value.first, span.value.last) for span in calendar.closed] if calendar is not None else []
    day = first
    while day <= last:
        if WEEKDAYS[day.weekday()] in days and not any(begin <= day <= end for begin, end in closed):
            yield day
        if day == date.max:
            return
        day += timedelta(days=1)
