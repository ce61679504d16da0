"""Reading tolerances, deviations and fits."""

from __future__ import annotations

import re

from site_builder.quantity import mends
from site_builder.quantity.closing import ClosingReader
from site_builder.quantity.errors import NotationError
from site_builder.quantity.fits import deviations
from site_builder.quantity.show import show_deviation
from site_builder.quantity.tokens import WORD
from site_builder.quantity.units import COUNT, Unit
from site_builder.quantity.value import Deviation, Fit, Measure, Number, Quantity, Toleranced


class ToleranceReader(ClosingReader):
    """Reads what follows a nominal size."""

    __slots__ = ()

    def tolerance_unit(self, first: int) -> Unit:
        """The unit at the end of a tolerance."""
        at = self.i
        unit = self.unit()
        if unit is None:
            if self.kinds[at] == WORD:
                said = self.text(first, at).replace("± ", "±")
                raise mends.unit_unknown(said, self.texts[at], self.table, *self.place(first, at + 1))
            raise mends.unit_missing(self.text(first, at).replace("± ", "±"), *self.place(first, at))
        self.finish(first)
        return unit

    def signed(self) -> Number:
        """A deviation: ``+0.2``, ``-0.05`` or ``0``; the plus is not kept."""
        at = self.i
        if self.texts[at] == "+":
            self.i += 1
            number = self.number()
            if number.text[0] == "-":
                raise self.broken("A deviation has one sign.", at, self.i)
            return number
        number = self.number()
        if number.text[0] != "-" and number.exact != 0:
            raise self.broken(f"A deviation has a sign: `+{number.text}` or `-{number.text}`.", at, self.i)
        return number

    def toleranced(self) -> Toleranced:
        """``25 ±0.1 mm``, ``25 +0.2/-0.05 mm``."""
        first = self.i
        nominal = self.number()
        if self.texts[self.i] == "±":
            self.i += 1
            at = self.i
            number = self.number()
            if number.text[0] == "-":
                raise self.broken("± takes a figure without a sign.", at, self.i)
            unit = self.tolerance_unit(first)
            return Toleranced(nominal, number, Number(f"-{number.text}"), unit, True)
        upper = self.signed()
        if self.texts[self.i] != "/":
            unit_text = self.texts[self.i] if self.kinds[self.i] == WORD else "mm"
            sign = "" if upper.text[0] == "-" else "+"
            pair = f"0/{upper.text}" if sign == "" else f"+{upper.text}/0"
            fix = f"{nominal.text} {pair} {unit_text}"
            raise self.broken(f"A tolerance has two sides: write `{fix}`.", first, fix=fix)
        self.i += 1
        lower = self.signed()
        unit = self.tolerance_unit(first)
        if lower.exact > upper.exact:
            swapped = f"{nominal.text} {show_deviation(lower)}/{show_deviation(upper)} {unit.symbol}"
            raise NotationError(
                "range-backward",
                f"The upper deviation comes first: write `{swapped}`.",
                fix=swapped,
                start=self.starts[first],
                end=self.ends[-1],
            )
        return Toleranced(nominal, upper, lower, unit, False)

    def deviation(self) -> Deviation:
        """``±0.2 mm``."""
        first = self.i
        self.i += 1
        if self.texts[self.i].startswith("-"):
            raise self.broken("± takes a figure without a sign.", first)
        quantity = self.quantity()
        if self.bare:
            if not self.bare_count:
                raise mends.unit_missing("±" + self.text(first + 1), *self.place(first))
            quantity = Quantity((Measure(quantity.parts[0].number, COUNT),))
        self.finish(first)
        return Deviation(quantity)

    def fit(self, found: re.Match[str]) -> Fit:
        """``25 H7 mm``."""
        first = self.i
        size = self.number()
        self.i += 1
        unit = self.tolerance_unit(first)
        if unit.kind != "length":
            raise self.broken(f"A fit is on a length, not on a {unit.kind}.", first)
        millimetres = size.exact * unit.factor * 1000
        try:
            deviations(millimetres, found[1], int(found[2]))
        except ValueError as error:
            raise self.broken(str(error), first) from None
        return Fit(size, found[1], int(found[2]), unit)
