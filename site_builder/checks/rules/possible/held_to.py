"""Values held to what they can be."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.possible.ranges import (
    ANYTHING,
    OF_KEY,
    OF_KIND,
    OF_LIMIT,
    OF_NAME,
    OF_THING,
    OF_WORD,
    Range,
)
from site_builder.checks.rules.values.held import once, reckoning
from site_builder.checks.rules.values.kinds import OF_NAME as KINDS_OF_NAME
from site_builder.checks.rules.values.wording import key_of, name_of
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Bounds

_WEEK = "wk"
_LONG_WEEK, _LONG_DAY = Fraction(60, 168), Fraction(16, 24)


class Held(NamedTuple):
    """A value, what it is called, its figures and what it can be."""

    written: Written
    name: str
    found: Bounds
    range: Range
    owner: str

    @property
    def figures(self) -> list[Fraction]:
        """What it says, the lowest first."""
        found = self.found
        told = (found.low, found.aim_low, found.aim_high, found.high)
        return sorted(figure for figure in told if figure is not None)


@once
def held(analysis: Analysis) -> tuple[Held, ...]:
    """Every value of which it is known what it can be."""
    return tuple(_held(analysis))


def _held(analysis: Analysis) -> Iterator[Held]:
    for leaf, place, key in analysis.index.values:
        found = reckoning(analysis).bounds(leaf)
        if found is None or found.relative:
            continue
        own, name = range_of(place, key, found.kind)
        if own is not ANYTHING:
            yield Held(leaf, name, found, own, place.owner_id)


def range_of(place: Place, key: str, kind: str) -> tuple[Range, str]:
    """What a value at this key can be, and what it is called."""
    entry = place.entry
    if not isinstance(entry, Limit) or key != "is_":
        written = key.rstrip("_").replace("_", " ")
        for model in type(entry).__mro__:
            own = OF_KEY.get((model.__name__, written))
            if own is not None:
                return _of_kind(own, kind), written
        return ANYTHING, key
    list_key, name = key_of(place, key), name_of(place)
    own = OF_LIMIT.get(list_key, ANYTHING)
    if own is not ANYTHING or list_key in ("old", "new"):
        return _of_kind(own, kind), list_key
    if name in OF_NAME and (not KINDS_OF_NAME.get(name) or kind in KINDS_OF_NAME[name]):
        return _of_kind(OF_NAME[name], kind), name
    by_word = OF_WORD.get((name.rpartition(" ")[2], kind))
    if by_word is not None:
        return by_word, name
    if list_key in ("sizes", "properties") and kind in OF_THING:
        return OF_THING[kind], name or list_key
    return OF_KIND.get(kind, ANYTHING), name or list_key


def _of_kind(own: Range, kind: str) -> Range:
    """A share has an upper end; a mass, a rate or a part in the same place has none but nothing."""
    if own.high == 1 and kind not in ("ratio", "time per time"):
        return Range("is 0 or more", 0)
    if own.whole and kind != "count":
        return ANYTHING  # of the wrong kind, which another rule tells
    return own


def impossible(one: Held) -> bool:
    """Whether nothing can have this value."""
    figures, found, own = one.figures, one.found, one.range
    if not figures:
        return False
    lowest, highest = figures[0], figures[-1]
    if own.low is not None and lowest < own.low and not own.beside:
        return True
    if own.beside and found.aim_low is not None and found.aim_low > 0 > lowest:
        return True  # more may be taken off than there is
    if own.low is not None and own.open_low and _is_nothing(found, highest, own.low):
        return True
    if own.high is not None and (highest > own.high or (own.open_high and lowest >= own.high)):
        return True
    if own.whole and not found.rough and any(figure.denominator != 1 for figure in figures):
        return True
    return own.least_only and found.low is None and found.high is not None


def _is_nothing(found: Bounds, highest: Fraction, low: float) -> bool:
    """Whether it comes to nothing at all; `min 0` says nothing of how much it is."""
    return highest <= low and not (found.low is not None and found.high is None and found.aim_high is None)


def doubtful(one: Held) -> str:
    """What is odd about a value that can be: `more than` or `less than`; empty where nothing is."""
    figures, own, found = one.figures, one.range, one.found
    if not figures or impossible(one):
        return ""
    high = Fraction(own.odd_high) if own.odd_high is not None else None
    if one.found.kind == "time per time":
        high = _LONG_WEEK if one.found.unit.symbol.endswith(_WEEK) else _LONG_DAY
    if high is not None and figures[-1] > high:
        return "very much"
    if own.beside and found.aim_high is not None and found.aim_high <= 0:
        return "very little"
    return "very little" if own.odd_low is not None and figures[0] < own.odd_low else ""
