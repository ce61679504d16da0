"""Views as plain data for the templates of the papers: dictionaries, lists and texts, and pieces of prose.

A piece is a text, or a list that begins with its kind: ``["em", [...]]``, ``["ref", [...], target]``. A link becomes
its words with the number of the page where its target stands; a second one to the same target in the same section
is words alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from typing import Any, Protocol
from urllib.parse import quote

from site_builder.notebook.finding import At
from site_builder.views.blocks import Block, Shot
from site_builder.views.prose import Case, Disputed, GlossaryWord, Linked, Only, Piece, Prose, Ref, Toned, Untold

Data = Any
"""What JSON can hold."""

_TONES = {
    "emphasis": "em", "strong": "b", "code": "code", "lead": "b", "because": "em", "aside": "aside",
    "other units": "also", "at step": "at", "at": "at", "besides": "besides", "line": "line", "used": "at",
    "rule": "at", "found": "b",
}


def target(ref: Ref) -> str:
    """The name of a place in the book, in letters that every font and template takes."""
    name = f"{ref.kind}:{quote(ref.id)}"
    return f"{name}#{quote(ref.anchor)}" if ref.anchor else name


class Setter(Protocol):
    """What knows which letters can be set."""

    def set(self, text: str, where: str) -> str:
        """The text with nothing in it that cannot be set; ``where`` it stands is told of what cannot."""


class AsData:
    """Turns views of one paper into data. ``places`` are the names of all places that the paper has."""

    def __init__(self, letters: Setter, picture: Callable[[Shot], Data], places: frozenset[str] = frozenset()) -> None:
        self._letters = letters
        self._picture = picture
        self.places = places
        self._home = ""
        self._called = ""
        self._seen: set[str] = set()

    def turn_to(self, home: str, called: str) -> None:
        """From now on it is told of ``home`` (a place), which readers know as ``called``."""
        self._home, self._called = home, called
        self._seen = set()

    def text(self, text: str) -> str:
        """A text with nothing in it that the fonts lack."""
        return self._letters.set(text, self._called)

    def of(self, view: object) -> Data:
        """Any view."""
        if isinstance(view, str):
            return self.text(view)
        if view is None or isinstance(view, bool | int | float):
            return view
        if isinstance(view, Prose):
            return self.prose(view)
        if isinstance(view, tuple | list):
            return [self.of(one) for one in view]
        if isinstance(view, Mapping) and view and all(type(key) is str for key in view):
            return {key: self.of(value) for key, value in view.items()}
        if isinstance(view, Mapping):  # by what is said: no key of an object
            return [[self.of(key), self.of(value)] for key, value in view.items()]
        if isinstance(view, Shot):
            return self._shot(view)
        if isinstance(view, Only):
            return self.prose(view.words)
        if isinstance(view, At) or not is_dataclass(view):
            return None
        found = {one.name: self.of(getattr(view, one.name)) for one in fields(view)}
        if isinstance(view, Block):
            found["kind"] = view.kind
        return found | ({"label": self.place(str(getattr(view, "anchor", "")))} if "anchor" in found else {})

    def place(self, anchor: str) -> str:
        """The name of a place of this section; empty if it has none."""
        return f"{self._home}#{quote(anchor)}" if anchor and self._home else ""

    def prose(self, said: Prose) -> Data:
        """Prose as its pieces."""
        return [one for piece in said for one in self._piece(piece)]

    def _piece(self, piece: Piece) -> list[Data]:
        if isinstance(piece, str):
            return [self.text(piece)]
        if isinstance(piece, GlossaryWord):
            return [self.text(piece.shown)]
        if isinstance(piece, Toned):
            return [[_TONES[piece.tone], self.prose(piece.words)]]
        if isinstance(piece, Linked):
            to = self._page_of(piece.to)
            return [["ref", self.prose(piece.words), to]] if to else self.prose(piece.otherwise or piece.words)
        if isinstance(piece, Untold):
            return [["untold", [self.text(piece.words)]]]
        if isinstance(piece, Case):
            words = self.prose(piece.words)
            return [["case", self.prose(piece.only.words), words]] if piece.only.words else words
        return self._disputed(piece)

    def _disputed(self, piece: Disputed) -> list[Data]:
        return [["split", [[self.prose(value), self.prose(who)] for value, who in piece.sides]]]

    def _page_of(self, ref: Ref) -> str:
        """The place whose page is to be named; empty if none is."""
        if ref.kind == "here":  # a place of the same chapter, pages away
            whole, to = "", f"{self._home}#{quote(ref.anchor)}"
        else:
            whole, to = target(Ref(ref.kind, ref.id)), self._nearest(target(ref))
        if whole == self._home or to not in self.places or to in self._seen:
            return ""
        self._seen.add(to)
        return to

    def _nearest(self, to: str) -> str:
        """The place itself, or what it stands in: a limit stands in its step, a step in its procedure."""
        place, _, anchor = to.partition("#")
        while anchor and f"{place}#{anchor}" not in self.places:
            anchor = anchor.rpartition("-")[0]
        return f"{place}#{anchor}" if anchor else place

    def _shot(self, shot: Shot) -> Data:
        return self._picture(shot) | {
            "alt": self.text(shot.alt), "caption": self.prose(shot.caption), "words": self.prose(shot.words),
            "marks": [{"x": mark.x, "y": mark.y, "words": self.prose(mark.words)} for mark in shot.marks],
            "said": self.text(_read_aloud(shot)), "tail": self.of(shot.tail), "only": self.prose(shot.only.words),
        }


def _read_aloud(shot: Shot) -> str:
    """What is told of a picture to whoever does not see it; its marks with it."""
    alt = shot.alt.rstrip(".") + "."
    marked = "; ".join(f"{n} {mark.words.plain.rstrip('.')}" for n, mark in enumerate(shot.marks, 1))
    return f"{alt} Marked: {marked}." if marked else alt
