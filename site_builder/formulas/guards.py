"""What figures must hold before anything is reckoned with them. Each guard hands the figure back."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Sized
from fractions import Fraction
from math import isfinite
from typing import TypeVar

from site_builder.formulas.errors import Impossible

Word = TypeVar("Word", bound=Hashable)

ABSOLUTE_ZERO = -273.15
"""°C, by definition of the kelvin."""


def finite(argument: str, unit: str, value: float) -> float:
    """A number that is one."""
    if not isfinite(value):
        raise Impossible(argument, unit, value, "must be a number")
    return value


def above_zero(argument: str, unit: str, value: float) -> float:
    """More than nothing: sizes, speeds, masses."""
    if not finite(argument, unit, value) > 0:
        raise Impossible(argument, unit, value, "must be more than 0")
    return value


def not_negative(argument: str, unit: str, value: float) -> float:
    """Nothing or more: allowances, times, amounts added."""
    if finite(argument, unit, value) < 0:
        raise Impossible(argument, unit, value, "must be 0 or more")
    return value


def share(argument: str, value: float) -> float:
    """A part of a whole, 0 to 1."""
    if not 0 <= finite(argument, "share", value) <= 1:
        raise Impossible(argument, "share", value, "must lie between 0 and 1")
    return value


def within(argument: str, unit: str, value: float, least: float, most: float) -> float:
    """Not under one figure and not over another."""
    if not least <= finite(argument, unit, value) <= most:
        raise Impossible(argument, unit, value, f"must lie between {least:g} and {most:g}")
    return value


def one_of(argument: str, value: Word, words: Collection[Word]) -> Word:
    """A word that is known; no other falls to a default."""
    if value not in words:
        raise Impossible(argument, "", value, f"must be one of {', '.join(map(str, words))}")
    return value


def lost_share(argument: str, value: float) -> float:
    """A part of a whole that is lost: 0 or more, and something is left."""
    if not 0 <= finite(argument, "share", value) < 1:
        raise Impossible(argument, "share", value, "must be 0 or more and less than 1")
    return value


def kept_share(argument: str, value: float) -> float:
    """A part of a whole that is kept: more than nothing, at most all of it."""
    if not 0 < finite(argument, "share", value) <= 1:
        raise Impossible(argument, "share", value, "must be more than 0 and at most 1")
    return value


def temperature(argument: str, celsius: float) -> float:
    """A temperature in °C, not under absolute zero."""
    if finite(argument, "°C", celsius) < ABSOLUTE_ZERO:
        raise Impossible(argument, "°C", celsius, f"must be absolute zero, {ABSOLUTE_ZERO} °C, or more")
    return celsius


def at_least(argument: str, unit: str, value: float, least: float, of: str) -> float:
    """Not less than another figure, named in ``of``."""
    if finite(argument, unit, value) < least:
        raise Impossible(argument, unit, value, f"must be at least the {of}, {float(least):g}")
    return value


def whole(argument: str, value: int | Fraction, least: int = 0) -> int:
    """A count: a whole number, not less than ``least``."""
    if value != int(value) or value < least:
        raise Impossible(argument, "count", value, f"must be a whole number, {least} or more")
    return int(value)


def some(argument: str, unit: str, values: Sized) -> None:
    """A row that holds something."""
    if not len(values):
        raise Impossible(argument, unit, "none", "must hold at least one figure")
