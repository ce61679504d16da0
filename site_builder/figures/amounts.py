"""Amounts in a sentence: as many digits as they are good for, in the shop's own system first."""

from __future__ import annotations

from math import ceil, floor, log10

from site_builder.figures.batch_words import NO_BREAK
from site_builder.formulas.interval import Interval
from site_builder.quantity import Unit, find_unit

MINUS = "\u2212"
_POUND, _KILOGRAM = 0.45359237, 0.95
"""Kilograms from which the larger unit reads better."""
_FEW_HOURS = 1.5
_NOTHING = 1000
"""So many times less than the other end reads as 0."""


def figure(value: float, digits: int = 3) -> str:
    """So many digits that matter: 18.326 is 18.3, 3607 is 3610 with three."""
    return _rounded(value, _places(value, digits))


def amount(span: Interval, symbol: str, digits: int = 3) -> str:
    """A span of base units in a unit: ``18.3 to 20.9 m/s``, ``3.4 kWh``."""
    return f"{between(*_in(span, symbol), digits)}{NO_BREAK}{_unit(symbol).named(False)}"


def between(low: float, high: float, digits: int = 3) -> str:
    """Two ends, or one figure where they read alike; the lesser end is told no finer than the greater one is."""
    return _told(low, high, _ends(low, high, digits))


def both(span: Interval, metric: str, inch: str, is_inch: bool, digits: int = 3) -> str:
    """In both systems, the shop's own first: ``18.3 m/s (3600 ft/min)``.

    The other system is told no finer than the first: 0.7 mm is 0.028 in, not 0.0276 in.
    """
    first, other = (inch, metric) if is_inch else (metric, inch)
    ends = _in(span, first)
    told = _told(*ends, _ends(*ends, digits))
    decimals = max(len(one.partition(".")[2]) for one in told.split(" to "))
    finest = decimals or min(0, *_ends(*ends, digits))
    if first == "in" and not decimals:
        finest += 1  # whole inches are seldom meant to the inch: 8 in is 203 mm
    step = 10.0 ** -finest * float(_unit(first).factor / _unit(other).factor)
    least = ceil(-log10(step) - 1e-9)
    others = _in(span, other)
    # One digit stays, however coarse the first was; what reads as 0 there is 0 here.
    said = told.split(" to ")
    low, high = (max(min(one, least), _places(value, 1)) if first_said != "0" else min(one, least)
                 for one, value, first_said in zip(_ends(*others, digits), others, (said[0], said[-1]), strict=True))
    return (f"{told}{NO_BREAK}{_unit(first).named(False)} "
            f"({_told(*others, (low, high))}{NO_BREAK}{_unit(other).named(False)})")


def heat(span: Interval, is_inch: bool) -> str:
    """A temperature to the degree, in both scales."""
    ends = {"°C": (span.low, span.high), "°F": (span.low * 1.8 + 32, span.high * 1.8 + 32)}
    return _two_scales(ends, "°F" if is_inch else "°C")


def warmer(span: Interval, is_inch: bool) -> str:
    """A difference of temperatures to the degree, in both scales: ``58 to 88 °C (104 to 158 °F)``."""
    ends = {"°C": (span.low, span.high), "°F": (span.low * 1.8, span.high * 1.8)}
    return _two_scales(ends, "°F" if is_inch else "°C")


def mass(span: Interval, is_inch: bool, digits: int = 3) -> str:
    """Kilograms or grams, and pounds or ounces."""
    return both(span, "kg" if span.high >= _KILOGRAM else "g", "lb" if span.high >= _POUND else "oz", is_inch, digits)


def _two_scales(ends: dict[str, tuple[float, float]], first: str) -> str:
    other = "°C" if first == "°F" else "°F"
    told = []
    for scale in (first, other):
        low, high = (f"{one:.0f}".replace("-", MINUS) for one in ends[scale])
        told.append(f"{low if low == high else f'{low} to {high}'}{NO_BREAK}{scale}")
    return f"{told[0]} ({told[1]})"


def lapse(low: float, high: float) -> str:
    """Hours, in minutes where they are few: ``47 min``, ``6.1 h``."""
    if high < _FEW_HOURS:
        return f"{between(low * 60, high * 60, 2)}{NO_BREAK}min"
    return f"{between(low, high, 2)}{NO_BREAK}h"


def percent(span: Interval, digits: int = 2) -> str:
    """A share as per cent."""
    return f"{between(span.low * 100, span.high * 100, digits)}{NO_BREAK}%"


def percent_of(share: float, digits: int = 2) -> str:
    """One share as per cent."""
    return percent(Interval(share, share), digits)


def about(words: str, rough: bool) -> str:
    """``about`` before what is rough."""
    return f"about {words}" if rough else words


def _unit(symbol: str) -> Unit:
    unit = find_unit(symbol)
    if unit is None:
        raise ValueError(f"{symbol} is no unit")
    return unit


def _in(span: Interval, symbol: str) -> tuple[float, float]:
    """Both ends in this unit."""
    unit = _unit(symbol)
    low, high = ((one - float(unit.offset)) / float(unit.factor) for one in (span.low, span.high))
    return low, high


def _places(value: float, digits: int) -> int:
    """How many decimals show so many digits that matter; below zero tens and hundreds are rounded."""
    return digits - 1 - floor(log10(abs(value))) if value else 0


def _ends(low: float, high: float, digits: int) -> tuple[int, int]:
    """Decimals of both ends: those of the greater one, and of the lesser one enough to tell it from nothing."""
    greatest = max(abs(low), abs(high))
    first, last = (_end(one, greatest, digits) for one in (low, high))
    return first, last


def _end(value: float, greatest: float, digits: int) -> int:
    if not value or abs(value) == greatest:
        return _places(value, digits)
    # 16 to 1230 keeps its 16, and 3.4 to 10 its 3.4; but −0.0001 to 0.0228 has no more than four decimals.
    places = max(_places(greatest, digits), min(_places(value, 2), max(_places(greatest, max(digits, 3)), 0)))
    if abs(value) >= greatest / _NOTHING:
        places = max(places, _places(value, 1))
    return min(_places(value, digits), places)


def _told(low: float, high: float, places: tuple[int, int]) -> str:
    ends = _rounded(low, places[0]), _rounded(high, places[1])
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _rounded(value: float, places: int) -> str:
    text = f"{round(value, places):.{max(places, 0)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return MINUS + text[1:] if text.startswith("-") and text != "-0" else text.removeprefix("-")
