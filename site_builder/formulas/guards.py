"""What figures must hold before anything is reckoned with them. Each guard hands the figure back."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Sized
from fractions import Fraction
from math import inf
from numbers import Real
from typing import TypeVar

from site_builder.formulas.errors import Impossible

Word = TypeVar("Word", bound=Hashable)
Number = TypeVar("Number", bound="float | Fraction")

ABSOLUTE_ZERO = -273.15
"""°C, by definition of the kelvin."""
HOTTEST = 10_000.0
"""°C; no flame and no arc of a shop heats anything so far."""
FARTHEST = 1e15
"""No figure of a shop comes near it in any unit that is used here: joules in a tonne of metal are a million
times less."""
MOST_PIECES = 1_000_000
"""Counts that a shop deals with, and that are reckoned in an instant."""


def finite(argument: str, unit: str, value: Number) -> Number:
    """A number that is one, and not beyond all that a shop deals with."""
    if not _is_number(value) or not -inf < value < inf:
        raise Impossible(argument, unit, value, "must be a number")
    if not -FARTHEST <= value <= FARTHEST:
        raise Impossible(argument, unit, value, f"must be a number that can be, at most {FARTHEST:g} either way")
    return value


def above_zero(argument: str, unit: str, value: Number) -> Number:
    """More than nothing: sizes, speeds, masses."""
    if not finite(argument, unit, value) > 0:
        raise Impossible(argument, unit, value, "must be more than 0")
    return value


def not_negative(argument: str, unit: str, value: Number) -> Number:
    """Nothing or more: allowances, times, amounts added."""
    if finite(argument, unit, value) < 0:
        raise Impossible(argument, unit, value, "must be 0 or more")
    return value


def share(argument: str, value: Number) -> Number:
    """A part of a whole, 0 to 1."""
    if not 0 <= finite(argument, "share", value) <= 1:
        raise Impossible(argument, "share", value, "must lie between 0 and 1")
    return value


def within(argument: str, unit: str, value: Number, least: float, most: float) -> Number:
    """Not under one figure and not over another."""
    if not least <= finite(argument, unit, value) <= most:
        raise Impossible(argument, unit, value, f"must lie between {least:g} and {most:g}")
    return value


def one_of(argument: str, value: Word, words: Collection[Word]) -> Word:
    """A word that is known; no other falls to a default."""
    if not isinstance(value, Hashable) or value not in words:
        raise Impossible(argument, "", value, f"must be one of {', '.join(map(str, words))}")
    return value


def lost_share(argument: str, value: Number) -> Number:
    """A part of a whole that is lost: 0 or more, and something is left."""
    if not 0 <= finite(argument, "share", value) < 1:
        raise Impossible(argument, "share", value, "must be 0 or more and less than 1")
    return value


def kept_share(argument: str, value: Number) -> Number:
    """A part of a whole that is kept: more than nothing, at most all of it."""
    if not 0 < finite(argument, "share", value) <= 1:
        raise Impossible(argument, "share", value, "must be more than 0 and at most 1")
    return value


def temperature(argument: str, celsius: float) -> float:
    """A temperature in °C, not under absolute zero."""
    if finite(argument, "°C", celsius) < ABSOLUTE_ZERO:
        raise Impossible(argument, "°C", celsius, f"must be absolute zero, {ABSOLUTE_ZERO} °C, or more")
    if celsius > HOTTEST:
        raise Impossible(argument, "°C", celsius, f"must be at most {HOTTEST:g}")
    return celsius


def at_least(argument: str, unit: str, value: Number, least: float | Fraction, of: str) -> Number:
    """Not less than another figure, named in ``of``."""
    if finite(argument, unit, value) < least:
        raise Impossible(argument, unit, value, f"must be at least the {of}, {float(least):g}")
    return value


def whole(argument: str, value: int | Fraction, least: int = 0, most: int = MOST_PIECES) -> int:
    """A count: a whole number, not less than ``least`` and not more than ``most``."""
    if not _is_number(value) or not least <= value < inf or value != int(value):
        raise Impossible(argument, "count", value, f"must be a whole number, {least} or more")
    if value > most:
        raise Impossible(argument, "count", value, f"must be at most {most}")
    return int(value)


def some(argument: str, unit: str, values: Sized) -> None:
    """A row that holds something."""
    if not len(values):
        raise Impossible(argument, unit, "none", "must hold at least one figure")


def _is_number(value: object) -> bool:
    """Words and truths that got so far in spite of their types are none."""
    return isinstance(value, Real) and not isinstance(value, bool)
