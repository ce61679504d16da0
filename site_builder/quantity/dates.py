"""Dates: a year, a month or a day, or a span from one to another."""

from __future__ import annotations

import calendar
import re
from dataclasses import dataclass
from datetime import date

from site_builder.quantity.errors import NotationError
from site_builder.quantity.mends import broken
from site_builder.quantity.signs import plain_signs

_DATE = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?", re.ASCII)
_LOOSE = re.compile(r"(\d{4})-(\d{1,2})(?:-(\d{1,2}))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class DateSpan:
    """From the first to the last day, both in it; ``text`` tells to the day, the month or the year."""

    text: str
    first: date
    last: date


def _one(text: str, start: int, end: int) -> tuple[date, date]:
    found = _DATE.fullmatch(text)
    if not found:
        loose = _LOOSE.fullmatch(text)
        mend = "-".join(part.zfill(2) for part in loose.groups() if part) if loose else ""
        hint = mend or "2024-02-11"
        raise broken(f"Dates are year, month, day: write `{hint}`.", start, end, mend)
    year, month, day = (int(part) if part else None for part in found.groups())
    try:
        first = date(year or 0, month or 1, day or 1)
    except ValueError:
        raise broken(f"There is no day {text}.", start, end) from None
    if day is not None:
        return first, first
    last_month = month or 12
    return first, date(first.year, last_month, calendar.monthrange(first.year, last_month)[1])


def parse_date(text: str) -> DateSpan:
    """Read ``2024``, ``2024-02``, ``2024-02-11``, or two with ``..`` between. Raises ``NotationError``."""
    plain, _ = plain_signs(text)
    end = len(text)
    whole = "".join(plain.split())
    low, dots, high = whole.partition("..")
    first, last = _one(low, 0, end)
    if not dots:
        return DateSpan(whole, first, last)
    other_first, other_last = _one(high, 0, end)
    if other_first < first:
        mend = f"{high}..{low}"
        raise NotationError("range-backward", f"The dates run backward: write `{mend}`.", mend=mend, end=end)
    return DateSpan(whole, first, max(last, other_last))


def show_date(span: DateSpan) -> str:
    """The span as canonical text."""
    return span.text
