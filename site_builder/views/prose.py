"""Prose for people, in pieces: plain text, and what a face has to know of it. No markup, no addresses."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import lru_cache
from typing import Literal, Self

from site_builder.notebook.finding import At

Tone = Literal["emphasis", "strong", "code", "lead", "because", "aside", "other units", "at step", "at",
               "besides", "line", "used", "rule", "found"]
"""How a stretch of words is meant. The first three are the writer's; `lead` opens a line, `because` is our word that
joins a reason, `aside` belongs to the words before it, `other units` repeats a value, `at step`, `at` and `used`
say where, `besides` says more, `line` stands on a line of its own, `rule` names a rule, `found` marks what it finds."""


class Prose(tuple["Piece", ...]):
    """What is said, piece by piece. No two texts stand side by side, and none is empty."""

    __slots__ = ()

    def __new__(cls, pieces: Iterable[Piece] = ()) -> Self:
        """Refuses a bare text, which would come to pieces letter by letter."""
        if isinstance(pieces, str):
            raise TypeError(f"prose(...) makes words of a text: {pieces!r}")
        return super().__new__(cls, pieces)

    def __str__(self) -> str:
        return self.plain

    @property
    def plain(self) -> str:
        """The text alone, as it is read aloud."""
        return "".join(piece if type(piece) is str else _plain(piece) for piece in self)


NO_WORDS = Prose()


@dataclass(frozen=True, slots=True)
class Ref:
    """Where a link leads: a thing of the notebook by its kind and id, or a place on its page."""

    kind: str
    id: str
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Linked:
    """Prose that lead somewhere; they stay words where the face has no such page."""

    words: Prose
    to: Ref
    otherwise: Prose = NO_WORDS
    """What is said where it leads nowhere, if that is not the same."""


@dataclass(frozen=True, slots=True)
class GlossaryWord:
    """A word of the glossary as it stands in a text of the notebook."""

    word: str
    shown: str


@dataclass(frozen=True, slots=True)
class Untold:
    """What the notebook does not say yet, and the line whose question asks for it."""

    words: str
    at: At


@dataclass(frozen=True, slots=True)
class Toned:
    """Prose in a tone of their own."""

    tone: Tone
    words: Prose


@dataclass(frozen=True, slots=True)
class Only:
    """For which variant a thing holds: in words, and as what the reader's choice is compared with."""

    words: Prose = NO_WORDS
    values: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """(dimension, its values)."""


@dataclass(frozen=True, slots=True)
class Case:
    """Prose that hold only for a variant."""

    only: Only
    words: Prose


@dataclass(frozen=True, slots=True)
class Disputed:
    """Values side by side, (value, who says so), until somebody settles it at the line ``at``."""

    sides: tuple[tuple[Prose, Prose], ...]
    at: At


Piece = str | Linked | GlossaryWord | Untold | Toned | Case | Disputed


EVERY = Only()
_ENDS = (".", "!", "?", ":", "”", ".)", "?)")
_WORD = re.compile(r"[A-Z][^\s,.;:]*")


def _plain(piece: Piece) -> str:
    if isinstance(piece, Linked | Toned):
        return piece.words.plain
    if isinstance(piece, GlossaryWord):
        return piece.shown
    if isinstance(piece, Untold):
        return piece.words
    if isinstance(piece, Case):
        return f"{piece.only.words.plain}: {piece.words.plain}" if piece.only.words else piece.words.plain
    if isinstance(piece, Disputed):
        said = " or ".join(f"{value.plain} says {who.plain}" for value, who in piece.sides)
        return f"{said} not settled"
    return piece


# --- making --------------------------------------------------------------------------------------------------


def merged(pieces: Iterable[Piece]) -> Prose:
    """Pieces in a row."""
    found: list[Piece] = []
    for piece in pieces:
        if type(piece) is not str:
            found.append(piece)
        elif piece:
            if found and type(found[-1]) is str:
                found[-1] += piece
            else:
                found.append(piece)
    return Prose(found)


def prose(said: str | Prose) -> Prose:
    """Plain text as words; words as they are."""
    return said if isinstance(said, Prose) else Prose((said,)) if said else NO_WORDS


def say(sentence: str, *values: str | int | Prose) -> Prose:
    """A sentence of ours with each ``{}`` replaced by the next value; as many gaps as values.

    ``**so**`` opens a line, `` `so` `` is code.
    """
    told = iter(values)
    found = _filled(_plan(sentence), told)
    if next(told, None) is not None:
        raise ValueError(f"more values than gaps: {sentence}")
    return found


_Plan = tuple["str | tuple[Tone, _Plan] | None", ...]
"""A sentence of ours: texts, gaps (None), and what stands in a tone of its own."""


def _filled(plan: _Plan, values: Iterator[str | int | Prose]) -> Prose:
    parts: list[Piece] = []
    for one in plan:
        if one is None:
            value = next(values)
            parts += value if isinstance(value, Prose) else (str(value),)
        elif isinstance(one, str):
            parts.append(one)
        else:
            parts.append(Toned(one[0], _filled(one[1], values)))
    return merged(parts)


@lru_cache(2000)
def _plan(sentence: str) -> _Plan:
    found: list[str | tuple[Tone, _Plan] | None] = []
    for nth, part in enumerate(re.split(r"\*\*(.+?)\*\*|`(.+?)`", sentence)):
        if part is None:
            continue
        if nth % 3:
            found.append(("lead" if nth % 3 == 1 else "code", _plan(part)))
        else:
            for gap, text in enumerate(part.split("{}")):
                found += (None, text) if gap else (text,)
    return tuple(found)


def joined(parts: Iterable[str | Prose], between: str = " ") -> Prose:
    """Parts in a row with ``between`` them; empty ones are left out."""
    found: list[Piece] = []
    for part in parts:
        if part:
            if found:
                found.append(between)
            found += (part,) if isinstance(part, str) else part
    return merged(found)


def listed(items: Iterable[str | Prose], last: str = "and") -> Prose:
    """``a, b and c``."""
    parts = list(items)
    if len(parts) < 2:
        return prose(parts[0]) if parts else NO_WORDS
    return joined([joined(parts[:-1], ", "), parts[-1]], f" {last} ")


def toned(tone: Tone, said: str | Prose) -> Prose:
    """Prose in a tone of their own; none where nothing is said."""
    return Prose((Toned(tone, prose(said)),)) if said else NO_WORDS


def linked(said: str | Prose, to: Ref, otherwise: str | Prose = NO_WORDS) -> Prose:
    """Prose that lead somewhere; `otherwise` is said where they cannot."""
    return Prose((Linked(prose(said), to, prose(otherwise)),))


def meant(only: Only, said: Prose) -> Prose:
    """Prose that may hold for a variant only."""
    return Prose((Case(only, said),)) if only.words or only.values else said


# --- bending -------------------------------------------------------------------------------------------------


def capital(said: str | Prose) -> Prose:
    """The first letter large, within a link too."""
    return _first(prose(said), capital_text)


def capital_text(text: str) -> str:
    """The same of plain text."""
    return text[:1].upper() + text[1:]


def lowered(said: str | Prose, proper: frozenset[str] = frozenset()) -> Prose:
    """The first letter small, for a sentence that goes on from ours; ``proper`` names and P80 stay."""
    return _first(prose(said), lambda text: lowered_text(text, proper))


def lowered_text(text: str, proper: frozenset[str] = frozenset()) -> str:
    """The same of plain text."""
    word = _WORD.match(text)
    if word is None:
        return text
    first = word[0].replace("’s", "").rstrip("’")
    is_name = first in proper or first == "I" or first.startswith("I’") or not (first[1:].islower() or first == "A")
    return text if is_name else text[0].lower() + text[1:]


def _first(said: Prose, change: Callable[[str], str]) -> Prose:
    """The words with their very first text changed."""
    if not said:
        return said
    first = said[0]
    if isinstance(first, str):
        new: Piece = change(first)
    elif isinstance(first, Linked):
        new = Linked(_first(first.words, change), first.to, _first(first.otherwise, change))
    elif isinstance(first, Toned):
        new = Toned(first.tone, _first(first.words, change))
    elif isinstance(first, GlossaryWord):
        new = GlossaryWord(first.word, change(first.shown))
    elif isinstance(first, Untold):
        new = Untold(change(first.words), first.at)
    elif isinstance(first, Case):
        label = Only(_first(first.only.words, change), first.only.values)
        new = Case(label, first.words) if label.words else Case(first.only, _first(first.words, change))
    else:
        (value, who), *others = first.sides
        new = Disputed(((_first(value, change), who), *others), first.at)
    return Prose((new, *said[1:]))


def sentence(said: str | Prose) -> Prose:
    """The words with a full stop, unless they end with a mark of their own."""
    found = prose(said)
    if found and isinstance(found[-1], str):
        found = merged((*found[:-1], found[-1].rstrip()))
    if not found or found.plain.endswith(_ENDS):
        return found
    return merged((*found, "."))


def unstopped(said: Prose) -> Prose:
    """The words without the full stop at their end; dots that stand for what is left out stay."""
    last = said[-1] if said else ""
    if not isinstance(last, str) or not last.endswith(".") or last.endswith(".."):
        return said
    return merged((*said[:-1], last[:-1]))


def sentences(parts: Iterable[str | Prose]) -> Prose:
    """Several sentences one after the other, each with its full stop and a large first letter."""
    return joined(capital(sentence(part)) for part in parts if part)


def without_start(said: Prose, start: str) -> Prose:
    """The words without ``start``, if they begin with it."""
    first = said[0] if said else ""
    return merged((first.removeprefix(start), *said[1:])) if isinstance(first, str) else said


# --- looking into views --------------------------------------------------------------------------------------


def pieces_in(view: object) -> Iterator[Piece]:
    """Every piece of every text in a view, in order, those within pieces too."""
    if isinstance(view, str):
        return
    if isinstance(view, Prose):
        for piece in view:
            yield piece
            yield from pieces_in(piece)
    elif isinstance(view, tuple | list):
        for one in view:
            yield from pieces_in(one)
    elif isinstance(view, Mapping):
        yield from pieces_in(tuple(view.values()))
    elif is_dataclass(view):
        for one in fields(view):
            yield from pieces_in(getattr(view, one.name))


def terms_in(view: object) -> tuple[str, ...]:
    """The words of the glossary that a view uses, by alphabet."""
    return tuple(sorted({piece.word for piece in pieces_in(view) if isinstance(piece, GlossaryWord)}, key=str.lower))
