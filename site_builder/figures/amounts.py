"""Amounts in a sentence: as many digits as they are good for, in the shop's own system first."""

from __future__ import annotations

from math import floor, log10

from site_builder.craft.interval import Interval
from site_builder.figures.batch_words import NO_BREAK
from site_builder.quantity import find_unit

MINUS = "\u2212"


def figure(value: float, digits: int = 3) -> str:
    """So many digits that matter: 18.326 is 18.3, 3607 is 3610 with three."""
    if value == 0:
        return "0"
    places = digits - 1 - floor(log10(abs(value)))
    text = f"{round(value, places):.{max(places, 0)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return MINUS + text[1:] if text.startswith("-") else text


def amount(span: Interval, symbol: str, digits: int = 3) -> str:
    """A span of base units in a unit: ``18.3 to 20.9 m/s``, ``3.4 kWh``."""
    unit = find_unit(symbol)
    if unit is None:
        raise ValueError(f"{symbol} is no unit")
    low, high = ((one - float(unit.offset)) / float(unit.factor) for one in (span.low, span.high))
    return f"{between(low, high, digits)}{NO_BREAK}{unit.named(False)}"


def between(low: float, high: float, digits: int = 3) -> str:
    """Two ends, or one figure where they read alike."""
    ends = figure(low, digits), figure(high, digits)
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def both(span: Interval, metric: str, inch: str, is_inch: bool, digits: int = 3) -> str:
    """In both systems, the shop's own first: ``18.3 m/s (3610 ft/min)``."""
    first, other = (inch, metric) if is_inch else (metric, inch)
    return f"{amount(span, first, digits)} ({amount(span, other, digits)})"


def heat(span: Interval, is_inch: bool) -> str:
    """A temperature to the degree, in both scales."""
    ends = {"°C": (span.low, span.high), "°F": (span.low * 1.8 + 32, span.high * 1.8 + 32)}
    return _two_scales(ends, "°F" if is_inch else "°C")


def warmer(span: Interval, is_inch: bool) -> str:
    """A difference of temperatures to the degree, in both scales: ``58 to 88 °C (104 to 158 °F)``."""
    ends = {"°C": (span.low, span.high), "°F": (span.low * 1.8, span.high * 1.8)}
    return _two_scales(ends, "°F" if is_inch else "°C")


def mass(span: Interval, is_inch: bool, digits: int = 3) -> str:
    """Kilograms or grams and pounds."""
    metric = "kg" if span.high >= 1 else "g"
    return both(span, metric, "lb", is_inch, digits)


def _two_scales(ends: dict[str, tuple[float, float]], first: str) -> str:
    other = "°C" if first == "°F" else "°F"
    told = []
    for scale in (first, other):
        low, high = (f"{one:.0f}".replace("-", MINUS) for one in ends[scale])
        told.append(f"{low if low == high else f'{low} to {high}'}{NO_BREAK}{scale}")
    return f"{told[0]} ({told[1]})"


def percent(span: Interval, digits: int = 2) -> str:
    """A share as per cent."""
    return f"{between(span.low * 100, span.high * 100, digits)}{NO_BREAK}%"


def percent_of(share: float, digits: int = 2) -> str:
    """One share as per cent."""
    return percent(Interval(share, share), digits)


def about(words: str, rough: bool) -> str:
    """``about`` before what is rough."""
    return f"about {words}" if rough else words
