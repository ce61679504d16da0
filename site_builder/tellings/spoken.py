"""A quantity as it was spoken, and how the notation writes it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from site_builder.quantity import NotationError, Value, parse_cadence, parse_value
from site_builder.quantity.nouns import COMMON, plural
from site_builder.tellings.unit_words import DEGREES, INCH_UNITS, UNITS

Form = Literal["value", "either", "some", "first", "last", "every", "times", "of", "x", "lowest"]
_LISTED = frozenset(UNITS.values()) | {
    "psi",
    "fl oz",
    "° angle",
    "ft²",
    "in²",
    "m²",
    "yd²",
    "cm²",
    "dm²",
    "mm²",
    "m³",
    "ft³",
    "yd³",
    "in³",
    "cm³",
    "lbf ft",
    "lbf in",
    "N m",
    "°C difference",
    "°F difference",
    "A h",
    "imp gal",
    "grit",
}
_SMALLER = {"h": ("min", 60), "min": ("s", 60), "y": ("mo", 12)}


@dataclass(frozen=True, slots=True)
class Spoken:
    """A quantity: where it stands in the words of the cue, and what it means.

    ``unit`` is the notation's, a noun in the singular that is counted, ``degrees`` where the scale was not said,
    or nothing where none is known.
    """

    start: int
    end: int
    low: Fraction = Fraction(0)
    high: Fraction | None = None
    unit: str = ""
    lead: str = ""
    about: bool = False
    perhaps: bool = False
    form: Form = "value"
    more: tuple[tuple[Fraction, str], ...] = ()
    """What is added in smaller units: an hour and *twenty minutes*."""
    of: str = ""
    """What it is a part or a multiple of, or (``times``) in which time."""
    per: str = ""
    spread: Fraction | None = None
    """To either side: ten *plus or minus one*."""
    decimal: bool = False
    """Said or written with a decimal point, also where the unit likes fractions."""
    lent: bool = False
    """The unit was not said here but taken from what was said before or after."""
    taken_back: bool = False

    @property
    def known(self) -> bool:
        """Whether the notation can hold it: number and unit are known."""
        if self.form in ("first", "last", "every", "times"):
            try:
                parse_cadence(self.notation, self.nouns)
            except NotationError:
                return False
            return self.unit != DEGREES
        return self.value is not None

    @property
    def nouns(self) -> frozenset[str]:
        """What is counted in it and is no word that the notation knows by itself."""
        return frozenset(
            {
                noun
                for noun in (self.unit, self.per)
                if noun.isalpha() and noun not in _LISTED and noun not in COMMON and not noun.startswith("degree")
            }
        )

    @property
    def notation(self) -> str:
        """As the notebook writes it: ``105..110 °C``, ``min about 2 h``, ``3..4 coats``."""
        if self.form == "lowest":
            return self.of
        unit = self._unit(self.high if self.high is not None else self.low)
        if self.form == "either":
            return f"±{self._number(self.low)}{unit}".replace(" difference", "")
        if self.form == "some":
            return f"some {self.unit}"
        if self.form == "times":
            return (
                f"every 1 {self.of}"
                if self.low == 1 and self.of in ("h", "d", "wk", "mo", "y")
                else (f"{self._number(self.low)} per {self.of}")
            )
        if self.form in ("of", "x"):
            number = self._number(self.low) if self.form == "x" else str(self.low)
            figure = f"{number} {self.form} {self.of}"
        elif self.high is not None:
            figure = f"{self._number(self.low)}..{self._number(self.high)}{unit}"
        elif self.spread is not None:
            figure = f"{self._number(self.low)} ±{self._number(self.spread)}{unit}"
        else:
            figure = self._one(unit)
        if self.form in ("first", "last", "every"):
            rough = "about " if self.about and self.form == "every" else ""
            return f"{self.form} {rough}{figure}"
        leads = [
            word for word, said in (("perhaps", self.perhaps), (self.lead, self.lead), ("about", self.about)) if said
        ]
        return " ".join([*leads, figure])

    def _one(self, unit: str) -> str:
        smaller = _SMALLER.get(self.unit)
        if smaller is not None and 0 < self.low < 1 and not self.more and (self.low * smaller[1]).denominator == 1:
            return f"{self.low * smaller[1]} {smaller[0]}"
        more = "".join(f" {in_figures(number, fractions=False)} {name}" for number, name in self.more)
        return f"{self._number(self.low)}{unit}{more}"

    def _number(self, number: Fraction) -> str:
        return in_figures(number, fractions=self.unit in INCH_UNITS and not self.decimal)

    def _unit(self, number: Fraction) -> str:
        if not self.unit:
            return ""
        if self.unit in _LISTED or "/" in self.unit:
            name = self.unit
        elif self.unit == "part" or abs(number) != 1 or self.high is not None:
            name = plural(self.unit)
        else:
            name = self.unit
        if self.unit == "part" and (abs(number) != 1 or self.high is not None):
            name = "parts"
        return f" {name} per {self.per}" if self.per else f" {name}"

    @property
    def value(self) -> Value | None:
        """What the notation makes of it; None for rhythms (`every 2 h`), and where unit or scale are not known."""
        if self.unit == DEGREES or self.form in ("first", "last", "every", "times"):
            return None
        try:
            return parse_value(self.notation, self.nouns)
        except NotationError:
            return None


def in_figures(number: Fraction, fractions: bool) -> str:
    """A number in digits: as a fraction of inches, else with decimals where they end."""
    sign, number = ("-" if number < 0 else ""), abs(number)
    if number.denominator == 1:
        return f"{sign}{number.numerator}"
    plain = number.denominator
    while plain % 2 == 0:
        plain //= 2
    two = plain == 1
    while plain % 5 == 0:
        plain //= 5
    if plain != 1 or (fractions and two and number.denominator <= 64):
        whole, part = divmod(number, 1)
        return f"{sign}{int(whole)}-{part}" if whole else f"{sign}{part}"
    return f"{sign}{float(number):.10f}".rstrip("0")
