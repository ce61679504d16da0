"""Counts and spans as people say them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from site_builder.quantity import Limits, Quantity, Range, Value, show_value
from site_builder.views.typeset import typeset

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def number(count: int) -> str:
    """``three``; figures beyond twelve."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else str(count)


def how_often(value: Value) -> str:
    """``usually once, at most 5 times``, for the count of a loop."""
    what = value.what
    if isinstance(what, Limits):
        told = []
        for clause in what.clauses:
            figure = _count(clause.what)
            lead = {"about": "usually", "aim": "usually", "max": "at most", "under": "fewer than",
                    "min": "at least", "over": "more than"}[clause.lead]
            told.append(f"{lead} {figure}" if figure else f"how often {lead} is not told yet")
        first = next((n for n, one in enumerate(told) if one[-1].isdigit()), None)
        if first is not None:
            told[first] += " times"
        return ", ".join(told)
    figure = _count(what)
    return f"{figure}{' times' if figure[-1].isdigit() else ''}" if figure else show_value(value)


def _count(what: object) -> str:
    if isinstance(what, Range):
        return f"{_count(what.low)} to {_count(what.high)}".replace("once to", "1 to")
    if isinstance(what, Quantity):
        return "once" if what.parts[0].number.text == "1" else what.parts[0].number.text
    return ""


def span(seconds: Fraction) -> str:
    """A length of time, no finer than it can be meant: ``45 s``, ``20 min``, ``1 h 30 min``, ``22 h``."""
    minutes = seconds / 60
    if seconds < 90:
        return typeset(f"{round(seconds)} s")
    if minutes < 60:
        return typeset(f"{round(minutes)} min")
    if minutes < 600:
        hours, rest = divmod(round(minutes / 5) * 5, 60)
        return typeset(f"{hours} h {rest} min" if rest else f"{hours} h")
    return typeset(f"{round(minutes / 60)} h")


def days(count: Fraction) -> str:
    """``half a day``, ``three days``, ``two and a half days``: to the nearest half day."""
    whole, half = divmod(max(1, round(count * 2)), 2)
    if not whole:
        return "half a day"
    if not half:
        return f"{number(whole)} day{'' if whole == 1 else 's'}"
    return "a day and a half" if whole == 1 else f"{number(whole)} and a half days"


def digits(figure: Fraction, places: int | None = None) -> str:
    """A figure as decimal text: with so many places, or as short as four figures that matter allow."""
    if places is not None:
        return str((Decimal(figure.numerator) / Decimal(figure.denominator)).quantize(Decimal(1).scaleb(-places)))
    exact = Decimal(figure.numerator) / Decimal(figure.denominator)
    if exact == exact.to_integral_value():
        return str(exact.quantize(Decimal(1)))
    return format(Decimal(f"{float(figure):.4g}").normalize(), "f")
