"""Trends: how a value shifts away from the conditions it was told for."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal, cast

from site_builder.quantity.errors import NotationError
from site_builder.quantity.mends import broken, spaced
from site_builder.quantity.parse import parse_value
from site_builder.quantity.show import show_quantity
from site_builder.quantity.signs import plain_signs
from site_builder.quantity.value import Quantity

Way = Literal["halves", "doubles", "rises", "falls"]

_WITH = re.compile(r"\s*(rises|falls)\s+with\s+(\S.*?)\s*", re.DOTALL)
_FACTOR = re.compile(r"\s*(halves|doubles)\s+per\s+(.+?)\s+of\s+(\S.*?)\s*", re.DOTALL)
_STEPS = re.compile(r"\s*(rises|falls)\s+(.+?)\s+per\s+(.+?)\s+of\s+(\S.*?)\s*", re.DOTALL)
_FORMS = "Write `falls 1 min per 4 °C of room temperature`, `halves per 10 K of bath`, `rises with humidity`."


@dataclass(frozen=True, slots=True)
class Trend:
    """``falls`` by ``change`` for every ``per`` of what ``name`` refers to; a bare direction has neither.

    A temperature in ``change`` or ``per`` is a difference: 4 °C more, not 4 °C on the scale.
    """

    way: Way
    name: str
    change: Quantity | None = None
    per: Quantity | None = None
    start: int = field(default=0, compare=False)
    """Where the name stands in the text as given."""


def parse_trend(text: str, nouns: frozenset[str] = frozenset()) -> Trend:
    """Read a trend. Raises ``NotationError``."""
    plain, where = plain_signs(text)

    def place(offset: int) -> int:
        return offset if where is None else where[offset]

    def quantity(found: re.Match[str], group: int) -> Quantity:
        told = found[group]
        if told[0].isalpha() or told[0] == "°":
            told, shift = f"1 {told}", -2
        else:
            shift = 0
        start = found.start(group)
        try:
            what = parse_value(told, nouns).what
        except NotationError as error:
            error.shift(start + shift, found.end(group))
            error.move(where)
            error.fix = "" if shift else error.fix
            raise
        if not isinstance(what, Quantity) or what.per is not None:
            raise broken(
                f"`{spaced(told)}` is no plain quantity. {_FORMS}", place(start), place(found.end(group))
            )
        return what

    found = _WITH.fullmatch(plain)
    if found:
        return Trend(cast(Way, found[1]), spaced(found[2]), start=place(found.start(2)))
    found = _FACTOR.fullmatch(plain)
    if found:
        name = spaced(found[3])
        return Trend(cast(Way, found[1]), name, None, quantity(found, 2), place(found.start(3)))
    found = _STEPS.fullmatch(plain)
    if found:
        name = spaced(found[4])
        return Trend(cast(Way, found[1]), name, quantity(found, 2), quantity(found, 3), place(found.start(4)))
    raise broken(_FORMS, 0, len(text))


def show_trend(trend: Trend) -> str:
    """The trend as canonical text."""
    if trend.per is None:
        return f"{trend.way} with {trend.name}"
    change = "" if trend.change is None else f" {show_quantity(trend.change)}"
    return f"{trend.way}{change} per {show_quantity(trend.per)} of {trend.name}"
