"""Days, times and spans of a plan in plain words."""

from __future__ import annotations

from datetime import date
from math import ceil

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")


def day_told(when: date) -> str:
    """``7 May 2027``."""
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"


def apart(days: int) -> str:
    """``a week``, ``3 days``, ``two weeks and a half`` is never said: ``17 days``."""
    if days == 7:
        return "a week"
    if days and days % 7 == 0:
        return f"{days // 7} weeks"
    return "a day" if days == 1 else f"{days} days"


def brings(days: float) -> str:
    """``half a day``, ``2 days``, ``about an hour or two`` is never said: rounded to the quarter day."""
    quarters = max(round(days * 4), 1)
    whole, rest = divmod(quarters, 4)
    if not whole:
        return {1: "a quarter of a day", 2: "half a day", 3: "three quarters of a day"}[rest]
    return "a day" if quarters == 4 else f"{quarters / 4:g} days"


def hours(seconds: int) -> str:
    """``2 h 30 min``, to five minutes up."""
    minutes = ceil(seconds / 300) * 5
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest} min" if whole and rest else f"{whole} h" if whole else f"{rest} min"
