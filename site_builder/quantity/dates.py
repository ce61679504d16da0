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
_LOOSE = re.compile(r"(\d{4})[-./](\d{1,2})(?:[-./](\d{1,2}))?", re.ASCII)
_DAY_FIRST = re.compile(r"(?:(\d{1,2})\.)?(\d{1,2})\.(\d{4})", re.ASCII)
_SLASHED = re.compile(r"(?:(\d{1,2})[/-])?(\d{1,2})[/-](\d{4})", re.ASCII)
_NAMED = re.compile(r"(?:(\d{1,2})(?:st|nd|rd|th|\.)?)?([a-z]{3,})\.?(?:(\d{1,2})(?:st|nd|rd|th)?,)?(\d{4})", re.ASCII)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEASONS = ("spring", "summer", "autumn", "fall", "winter", "early", "mid", "late", "about", "around", "circa", "ca")


@dataclass(frozen=True, slots=True)
class DateSpan:
    """From the first to the last day, both in it; ``text`` tells to the day, the month or the year."""

    text: str
    first: date
    last: date


def _one(text: str, start: int, end: int) -> tuple[date, date]:
    found = _DATE.fullmatch(text)
    if not found:
        fix = _meant(text)
        slashed = _SLASHED.fullmatch(text)
        if slashed and not fix:  # 3/4/2024 is April in one country and March in the other
            raise broken("Day or month first? Dates are year, month, day, as `2024-02-11`.", start, end)
        hint = fix or "2024-02-11"
        raise broken(f"Dates are year, month, day: write `{hint}`.", start, end, fix)
    year, month, day = (int(part) if part else None for part in found.groups())
    try:
        first = date(year or 0, month or 1, day or 1)
    except ValueError:
        raise broken(f"There is no day {text}.", start, end) from None
    if day is not None:
        return first, first
    last_month = month or 12
    return first, date(first.year, last_month, calendar.monthrange(first.year, last_month)[1])


def _meant(text: str) -> str:
    """The day that is meant by another way of writing it; empty where that is not sure."""
    loose, dotted, slashed = (form.fullmatch(text) for form in (_LOOSE, _DAY_FIRST, _SLASHED))
    if loose:
        return _real(loose[1], loose[2], loose[3])
    if dotted:
        return _real(dotted[3], dotted[2], dotted[1])
    if slashed:
        first, second = slashed[1], slashed[2]
        if first is None or int(first) > 12:
            return _real(slashed[3], second, first)
        return _real(slashed[3], first, second) if int(second) > 12 else ""
    named = _NAMED.fullmatch(text.lower())
    if named is None:
        return ""
    if named[2][:3] in _MONTHS:
        return _real(named[4], str(_MONTHS.index(named[2][:3]) + 1), named[1] or named[3])
    return named[4] if named[2] in _SEASONS else ""


def _real(year: str, month: str, day: str | None) -> str:
    try:
        date(int(year), int(month), int(day or 1))
    except ValueError:
        return ""
    return "-".join((year, month.zfill(2), *([day.zfill(2)] if day else [])))


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
        fix = f"{high}..{low}"
        raise NotationError("range-backward", f"The dates run backward: write `{fix}`.", fix=fix, end=end)
    return DateSpan(whole, first, max(last, other_last))


def show_date(span: DateSpan) -> str:
    """The span as canonical text."""
    return span.text
