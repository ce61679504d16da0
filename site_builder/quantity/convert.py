"""A quantity in the other system of units, with as many digits as it was written with."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import Literal

from site_builder.quantity.listed import OTHER_OF_MADE, UNITS
from site_builder.quantity.measure import base_amount
from site_builder.quantity.units import Unit, compound, find_unit, quotient
from site_builder.quantity.value import Number, Quantity

Round = Literal["near", "down", "up"]
"""To the nearest digit; or down or up, so that a limit never admits what the written one refuses."""

_OTHER = {**{row.symbol: row.other for row in UNITS if row.other}, **OTHER_OF_MADE}
_FINEST_INCH = Fraction(1, 10000)
_FEW_DIGITS = 2


@lru_cache(maxsize=1024)
def other_unit(unit: Unit) -> Unit | None:
    """The unit of the other system in place of this one; None where both systems use the same."""
    named = _OTHER.get(unit.symbol)
    if named is not None:
        return find_unit(named)
    top, line, bottom = unit.symbol.partition("/")
    if line and "/" not in bottom:
        over, under = find_unit(top) or compound(top), find_unit(bottom) or compound(bottom)
        if over is not None and under is not None:
            other_over, other_under = other_unit(over), other_unit(under)
            if other_over is not None or other_under is not None:
                return quotient(other_over or over, other_under or under)
    return None


def resolution(number: Number) -> Fraction:
    """The worth of the last digit that was meant: 0.10 is told to 0.01, 6300 to 100, 3/8 to an eighth."""
    text = number.text
    if "/" in text:
        return Fraction(1, int(text.rpartition("/")[2]))
    whole, _, decimals = text.lstrip("-").partition(".")
    if decimals:
        return Fraction(1, 10 ** len(decimals))
    return Fraction(10 ** (len(whole) - len(whole.rstrip("0")))) if whole.strip("0") else Fraction(1)


def ten_below(figure: Fraction) -> Fraction:
    """The greatest power of ten that is not over the figure."""
    step = Fraction(1)
    while step > figure:
        step /= 10
    while step * 10 <= figure:
        step *= 10
    return step


def rounded(figure: Fraction, step: Fraction, way: Round) -> str:
    """The figure as decimal text in whole steps (a power of ten); exact figures lose their empty digits."""
    count = figure / step
    whole = floor(count + Fraction(1, 2)) if way == "near" else floor(count) if way == "down" else ceil(count)
    if step >= 1:
        return str(int(whole * step))
    places = len(str(step.denominator)) - 1
    digits = str(abs(whole)).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}"
    if whole == count:
        text = text.rstrip("0").rstrip(".")
    return f"-{text}" if whole < 0 else text


@dataclass(frozen=True, slots=True)
class Converted:
    """An exact figure in another unit, and the step to which it is worth telling."""

    figure: Fraction
    unit: Unit
    step: Fraction

    def text(self, way: Round = "near") -> str:
        """The figure rounded."""
        return rounded(self.figure, self.step, way)


def step_for(
    figure: Fraction, told: Fraction, unit: Unit, gap: Fraction | None = None, share: int = 100
) -> Fraction:
    """The step in which to tell a converted figure.

    ``told`` is the last written digit in the new unit; one part in ``share`` of the figure or a tenth of the
    ``gap`` to its neighbour ask for finer steps. Of temperatures only the digits matter, of their differences a
    twentieth. Inches end at a tenth of a thou unless more was told.
    """
    wanted = told
    if unit.kind != "temperature":
        share = 20 if unit.kind == "temperature difference" else share
        wanted = min(wanted, abs(figure) / share) if figure else wanted
    if unit.symbol == "in" and told >= _FINEST_INCH:
        wanted = max(wanted, _FINEST_INCH)
    if gap:
        wanted = min(wanted, abs(gap) / 10)
    return ten_below(wanted)


def converted(quantity: Quantity, unit: Unit, gap: Fraction | None = None) -> Converted:
    """The quantity without its ``per`` in another unit; ``gap`` is the base distance to its neighbour."""
    bare = Quantity(quantity.parts)
    figure = (base_amount(bare) - unit.offset) / unit.factor
    last = quantity.parts[-1]
    told = resolution(last.number) * last.unit.factor / unit.factor
    if unit.kind.startswith("temperature"):
        # 180 °C is told to the degree, not to the ten.
        told = min(told, last.unit.factor / unit.factor)
    # A step up to twice the last digit adds none: 430 °F are 221 °C, and not 221.1 °C.
    return Converted(figure, unit, step_for(
        figure, 2 * told, unit, gap / unit.factor if gap else None, _share(last.number, unit)))


def _share(number: Number, unit: Unit) -> int:
    """A figure of one digit or two is told to a twentieth (about 1 g is about 0.035 oz), all else to a hundredth:
    1 in is 25.4 mm to anybody who works to a size."""
    if unit.kind == "length":
        return 100
    digits = number.text.lstrip("-0.").replace(".", "")
    return 20 if "/" not in number.text and len(digits) <= _FEW_DIGITS else 100
