"""Dates as people write them, as precisely as they were told."""

from __future__ import annotations

from datetime import date

from site_builder.notebook.model.parsed_values import Dated
from site_builder.quantity import DateSpan
from site_builder.views.typeset import MONTHS


def date_words(leaf: Dated | None) -> str:
    """``2 March 2026``, ``March 2026``, ``1987``, or a span; empty where no date is told."""
    return "" if leaf is None else dated(str(leaf.text), leaf.value)


def dated(text: str, span: DateSpan) -> str:
    """A date as precisely as the text said."""
    parts = text.replace("…", "..").split("..")
    return " to ".join(_day(part.strip(), end) for part, end in zip(parts, (span.first, span.last), strict=False))


def at_date(leaf: Dated | None) -> str:
    """``on 2 March 2026``, ``in March 2026``, ``in 1987``; empty where no date is told."""
    told = date_words(leaf)
    return told and f"{'on' if told[0].isdigit() and ' ' in told else 'in'} {told}"


def dated_day(day: date) -> str:
    """``2 March 2026``."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def short_day(day: date) -> str:
    """``2 Mar``, where the year is plain from what stands around it."""
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def _day(text: str, day: date) -> str:
    pieces = text.count("-")
    if pieces == 0:
        return str(day.year)
    return f"{MONTHS[day.month - 1]} {day.year}" if pieces == 1 else dated_day(day)
