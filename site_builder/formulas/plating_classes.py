"""Least thickness of plate that a class of a standard or a word of the law asks for.

Only what was read in print stands here. A standard in force, and the law where the piece is sold, come first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class PlatingClass:
    """What a class asks for: the metal, its least thickness (m) on significant surfaces, and where that stands."""

    metal: str
    least: float
    source: str


_JIS = "JIS H 8617, nickel and chromium on zinc alloys, as tabled by MISUMI tutorial 312"
_US = "US Federal Trade Commission, 16 CFR 23"
_FR = "French tax code (CGI), annex, article 212 A"
_MICRON = 1e-6

CLASSES: Mapping[str, Mapping[str, PlatingClass]] = {
    "JIS H 8617 on zinc": {
        str(grade): PlatingClass("nickel", microns * _MICRON, _JIS)
        for grade, microns in ((1, 10), (2, 15), (3, 20), (4, 25), (5, 30), (6, 40))
    },
    "16 CFR 23": {
        "gold electroplate": PlatingClass("gold", 0.175 * _MICRON, f"{_US}.3(c)"),
        "heavy gold electroplate": PlatingClass("gold", 2.5 * _MICRON, f"{_US}.3(c)"),
        "vermeil": PlatingClass("gold", 2.5 * _MICRON, f"{_US}.4(b), on sterling silver"),
    },
    "French law": {
        "gold plate": PlatingClass("gold", 3 * _MICRON, _FR),
        "gold plate on watches": PlatingClass("gold", 5 * _MICRON, _FR),
        "vermeil": PlatingClass("gold", 5 * _MICRON, _FR),
    },
}


def plating_class(standard: str, grade: str) -> PlatingClass:
    """The class of that standard. Raises ``Impossible`` for one that does not stand here.

    Source: named in each class.
    """
    if standard not in CLASSES:
        raise Impossible("standard", "", standard, f"must be one of {', '.join(CLASSES)}")
    grades = CLASSES[standard]
    if grade not in grades:
        raise Impossible(f"class of {standard}", "", grade, f"must be one of {', '.join(grades)}")
    return grades[grade]
