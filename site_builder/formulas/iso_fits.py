"""ISO 286 fits by name: how much room, or how much too little, between a hole and what goes into it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.chain import Size
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.quantity import deviations

Kind = Literal["clearance", "transition", "interference"]

_TABLED = "holes D to S and shafts d to s, grades 5 to 14"
_CLASS = re.compile(r"([A-Za-z]{1,2})(\d{1,2})")


@dataclass(frozen=True, slots=True)
class FitRoom:
    """Clearance between hole and shaft in micrometres, from least to most; less than 0 is interference."""

    least: Fraction
    most: Fraction

    @property
    def kind(self) -> Kind:
        """Always room, never room, or sometimes so and sometimes so (ISO 286-1, 3.3.4)."""
        if self.least >= 0:
            return "clearance"
        return "interference" if self.most <= 0 else "transition"


def class_deviations(size: float | Fraction, tolerance_class: str) -> tuple[Fraction, Fraction]:
    """Lower and upper deviation in micrometres of a class such as ``H7`` on a size in millimetres.

    Raises ``Impossible`` for a class that is no class, or a size or class that is not tabled (1 to 500 mm,
    grades 5 to 14). Source: ISO 286-1:2010.
    """
    if not 1 <= guards.finite("size", "mm", size) <= 500:
        raise Impossible("size", "mm", float(size), "must lie between 1 and 500, where fits are tabled")
    found = _CLASS.fullmatch(tolerance_class)
    if not found:
        raise Impossible("tolerance class", "", tolerance_class, "must be letters and a grade, such as H7")
    try:
        return deviations(Fraction(size), found[1], int(found[2]))
    except ValueError:
        raise Impossible("tolerance class", "", tolerance_class, f"must be one that is tabled: {_TABLED}") from None


def fit_room(size: float | Fraction, fit: str) -> FitRoom:
    """Least and most clearance in micrometres of a fit such as ``H7/g6`` on a size in millimetres.

    Raises ``Impossible`` as ``class_deviations`` does, and for a fit that is not a hole and a shaft.
    Source: ISO 286-1:2010; clearance is the hole less the shaft.
    """
    hole, slash, shaft = fit.partition("/")
    if not slash or not hole[:1].isupper() or not shaft[:1].islower():
        raise Impossible("fit", "", fit, "must be a hole and a shaft, such as H7/g6")
    hole_low, hole_high = class_deviations(size, hole)
    shaft_low, shaft_high = class_deviations(size, shaft)
    return FitRoom(hole_low - shaft_high, hole_high - shaft_low)


def size_of_class(name: str, size: float | Fraction, tolerance_class: str, factor: float = 1.0) -> Size:
    """A size of a chain in millimetres, with the limits of its ISO 286 class. Raises ``Impossible`` likewise.

    Source: ISO 286-1:2010.
    """
    low, high = class_deviations(size, tolerance_class)
    return Size(name, float(size), float(low) / 1000, float(high) / 1000, factor)


def size_limits(size: float | Fraction, tolerance_class: str) -> Interval:
    """Smallest and largest size in millimetres that a class allows. Raises ``Impossible`` likewise.

    Source: ISO 286-1:2010.
    """
    low, high = class_deviations(size, tolerance_class)
    return Interval(float(size + low / 1000), float(size + high / 1000))
