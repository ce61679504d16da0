"""Moments: the start or end of something, or a result that has come out."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal, TypeAlias, cast

from site_builder.quantity.errors import NotationError
from site_builder.quantity.mends import broken, spaced
from site_builder.quantity.signs import plain_signs
from site_builder.quantity.value import Number

Result = Literal["good", "clean", "failed", "doubtful"]

_RESULT = r"(?:good|clean|failed|doubtful)"
_OUTCOME = re.compile(
    rf"(?P<count>[0-9]+|each)\s+(?P<results>{_RESULT}(?:\s+or\s+{_RESULT})*)\s+(?P<noun>[^\W\d_].*)"
)
_EDGE = re.compile(r"(start|end)\s+of\s+(\S.*)")


@dataclass(frozen=True, slots=True)
class Event:
    """A reference or an event in words; ``edge`` is None where only the name stands, which means its end."""

    name: str
    edge: Literal["start", "end"] | None = None
    start: int = field(default=0, compare=False)
    """Where the name stands in the text as given."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """``20 clean pieces``, ``each failed or doubtful piece``; ``count`` is None for each."""

    count: Number | None
    results: tuple[Result, ...]
    noun: str


Moment: TypeAlias = Event | Outcome


def parse_moment(text: str) -> Moment:
    """Read a moment. Raises ``NotationError`` where nothing is written."""
    plain, where = plain_signs(text)
    try:
        return read_moment(plain, where)
    except NotationError as error:
        error.move(where)
        raise


def read_moment(text: str, where: list[int] | None = None, offset: int = 0) -> Moment:
    """Read a moment in plain signs at ``offset`` of a longer text; ``where`` maps to the text as given."""
    whole = spaced(text)
    if not whole:
        raise broken("A moment is wanted: a step, or an event in words.", offset, offset + len(text))
    outcome = _OUTCOME.fullmatch(whole)
    if outcome:
        count = None if outcome["count"] == "each" else Number(outcome["count"])
        if count is not None and (len(count.text) > 9 or count.exact < 1):
            raise broken(f"{count.text[:12]} is no count of pieces.", offset, offset + len(text))
        results = tuple(cast(Result, word) for word in re.split(r"\s+or\s+", outcome["results"]))
        return Outcome(count, results, outcome["noun"])
    edge = _EDGE.fullmatch(whole)
    at = offset + len(text) - len(text.lstrip())
    if edge:
        found = re.search(r"\bof\s+", text)
        at += found.end() - (len(text) - len(text.lstrip())) if found else 0
        return Event(edge[2], cast(Literal["start", "end"], edge[1]), where[at] if where else at)
    if not (whole[0].isalpha() or whole[0] == "["):
        raise broken(
            f"`{whole}` is no moment: name a step, or an event in words.", offset, offset + len(text)
        )
    return Event(whole, None, where[at] if where else at)


def show_moment(moment: Moment) -> str:
    """The moment as canonical text."""
    if isinstance(moment, Outcome):
        count = "each" if moment.count is None else moment.count.text
        return f"{count} {' or '.join(moment.results)} {moment.noun}"
    return moment.name if moment.edge is None else f"{moment.edge} of {moment.name}"
