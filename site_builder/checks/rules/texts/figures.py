"""Figures with a unit inside running text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.quantity.units import LISTED, find_unit

_NO_MEASURES = frozenset({"count", "part", "part by weight", "part by volume"})
_NAMES = sorted((n for n, unit in LISTED.items() if unit.kind not in _NO_MEASURES), key=len, reverse=True)
_UNIT = "(?:" + "|".join(map(re.escape, _NAMES)) + ")[²³]?"
_NUMBER = r"\d+(?:[.,]\d+)?(?:[- ]\d+/\d+|/\d+)?"
_FIGURE = re.compile(
    rf"(?<![\w.,/+-])[-−]?(?:{_NUMBER} ?(?:\.\.|…|–|to) ?)?{_NUMBER}"
    rf"[ \u00a0]?(?P<unit>{_UNIT}(?:/{_UNIT})?)(?![\w/²³°])"
)
_INCH = re.compile(r"\d/\d+ in$")


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as written, where it begins in its text, and the kind of its unit."""

    text: str
    start: int
    kind: str


def figures_in(text: str) -> Iterator[Figure]:
    """Every number with a unit of measure; counts (`3 strokes`) are none.

    A bare `in` is the word and no inch, except behind a fraction or at the end of a sentence.
    """
    for found in _FIGURE.finditer(text):
        ends = found.end() == len(text) or text[found.end()] in ".,;)"
        if found["unit"] == "in" and not ends and not _INCH.search(found[0]):
            continue
        unit = find_unit(found["unit"])
        if unit is not None:
            yield Figure(found[0], found.start(), unit.kind)
