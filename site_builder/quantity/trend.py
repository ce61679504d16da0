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

_WORD = re.compile(r"\S+")
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

    def quantity(begin: int, end: int) -> Quantity:
        told = plain[begin:end]
        if told[0].isalpha() or told[0] == "°":
            told, shift = f"1 {told}", -2
        else:
            shift = 0
        try:
            what = parse_value(told, nouns).what
        except NotationError as error:
            error.shift(begin + shift, end)
            error.move(where)
            error.fix = "" if shift else error.fix
            raise
        if not isinstance(what, Quantity) or what.per is not None:
            raise broken(
                f"`{spaced(told)}` is no plain quantity. {_FORMS}", place(begin), place(end)
            )
        return what

    parts = _parts([*_WORD.finditer(plain)])
    if parts is None:
        raise broken(_FORMS, 0, len(text))
    change, per = (None if span is None else quantity(*span) for span in (parts.change, parts.per))
    return Trend(parts.way, spaced(plain[parts.name :]), change, per, place(parts.name))


@dataclass(frozen=True, slots=True)
class _Parts:
    """The way, and where the rest of a trend stands in its text."""

    way: Way
    change: tuple[int, int] | None
    per: tuple[int, int] | None
    name: int


def _parts(words: list[re.Match[str]]) -> _Parts | None:
    """The parts of a trend in its words, each of one word at the least; None where it is no trend."""
    said = [word[0] for word in words]
    way = said[0] if said else ""
    if way in ("rises", "falls") and said[1:2] == ["with"] and len(said) > 2:
        return _Parts(cast(Way, way), None, None, words[2].start())
    first = 1 if way in ("halves", "doubles") else 2 if way in ("rises", "falls") else len(said)
    per = _index(said, "per", first)
    of = _index(said, "of", per + 2)
    if of + 1 >= len(said) or (first == 1 and per != 1):
        return None
    change = None if first == 1 else (words[1].start(), words[per - 1].end())
    return _Parts(cast(Way, way), change, (words[per + 1].start(), words[of - 1].end()), words[of + 1].start())


def _index(said: list[str], word: str, first: int) -> int:
    """Where the word stands first from there on; behind the last where it does not."""
    return next((at for at in range(first, len(said)) if said[at] == word), len(said))


def show_trend(trend: Trend) -> str:
    """The trend as canonical text."""
    if trend.per is None:
        return f"{trend.way} with {trend.name}"
    change = "" if trend.change is None else f" {show_quantity(trend.change)}"
    return f"{trend.way}{change} per {show_quantity(trend.per)} of {trend.name}"
