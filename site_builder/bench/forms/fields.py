"""The keys of an entry as fields of a form, read from the model itself: its annotations and its docstrings."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from site_builder.amend import writing_order
from site_builder.bench.forms.named_values import BareAmount, BareCount, BareValue, BareWords
from site_builder.notebook.model import limit, parsed_values
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import OneOf
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.reference_keys import kinds_for


class Fill(StrEnum):
    """What fills a field."""

    WORDS = "words"
    LINES = "lines"
    """Several texts, a line each."""
    VALUE = "value"
    COUNT = "count"
    CADENCE = "cadence"
    DAY = "day"
    CHOICE = "choice"
    CHOICES = "choices"
    THING = "thing"
    THINGS = "things"
    PICTURE = "picture"
    """A photo from a camera or the disk; what stands there is the name under which it was kept."""
    ENTRY = "entry"
    """One entry of its own form."""
    ENTRIES = "entries"
    NAMED = "named"
    """Entries or values under names of the shop's own."""


@dataclass(frozen=True, slots=True)
class Field:
    """One key of an entry."""

    key: str
    label: str
    fill: Fill
    of: tuple[str, ...] = ()
    """Words to choose from, or the kinds of things."""
    model: type[Entry] | None = None
    """The entry that stands there."""
    needed: bool = False
    free: bool = False
    """Whether a name that the notebook does not know will do as well."""

    @property
    def is_line(self) -> bool:
        """Whether it is filled in the form itself; anything else has a form of its own."""
        return self.fill not in (Fill.ENTRY, Fill.ENTRIES, Fill.NAMED)


_LEFT_OUT = frozenset({"at", "asked", "id", "former", "told", "for", "format", "finds", "key", "given", "follows"})
"""What no hand at the bench writes: marks that others find a thing by, and what is told elsewhere."""


def _reader(annotated: Any) -> Any:
    return get_args(annotated)[1]


_BY_READER = {
    id(_reader(parsed_values.Words)): Fill.WORDS, id(_reader(parsed_values.Ref)): Fill.THING,
    id(_reader(parsed_values.Amount)): Fill.VALUE, id(_reader(parsed_values.TabledAmount)): Fill.VALUE,
    id(_reader(parsed_values.Count)): Fill.COUNT, id(_reader(parsed_values.CadenceText)): Fill.CADENCE,
    id(_reader(parsed_values.DateText)): Fill.DAY, id(_reader(parsed_values.MomentText)): Fill.WORDS,
    id(_reader(parsed_values.TrendText)): Fill.WORDS,
}
_NARROWER = {"wear": ("protection",), "with": ("gauge", "sample"), "tool": ("tool",)}
"""What is offered first where every tool could be named; one that is named already stands among them."""
_SHELVED = frozenset({"tool", "material", "part", "skill", "person", "procedure", "customer", "order", "change",
                      "route", "protection", "gauge", "sample"})


@cache
def fields_of(model: type[Entry]) -> tuple[Field, ...]:
    """The fields of an entry in the order in which a careful hand writes them."""
    by_key = {}
    for name, info in model.model_fields.items():
        key = info.alias or name
        if key not in _LEFT_OUT and not _is_own_id(model, key):
            found = _field(model, name, key, info)
            if found is not None:
                by_key[key] = found
    if issubclass(model, BareValue):
        return (by_key[model.MAIN],)
    return tuple(by_key[key] for key in writing_order(model) if key in by_key)


def _is_own_id(model: type[Entry], key: str) -> bool:
    info = next((f for n, f in model.model_fields.items() if (f.alias or n) == key), None)
    return info is not None and any(one is _reader(parsed_values.Id) for one in info.metadata)


def _field(model: type[Entry], name: str, key: str, info: Any) -> Field | None:
    label = _label(info.description or key)
    several, named, reader, inner, words = _taken_apart(info.annotation, info.metadata)
    written = kinds_for(model, name) or ()
    kinds, free = tuple(one.rstrip("?") for one in written), any(one.endswith("?") for one in written)
    kinds = _NARROWER.get(key, kinds) if kinds == ("tool",) or key == "with" else kinds
    needed = bool(info.is_required())
    if inner is not None:
        fill = Fill.NAMED if named else Fill.ENTRIES if several else Fill.ENTRY
        return Field(key, label, fill, model=inner, needed=needed)
    if named:
        bare = {Fill.COUNT: BareCount, Fill.VALUE: BareAmount}.get(_BY_READER.get(id(reader), Fill.WORDS), BareWords)
        return Field(key, label, Fill.NAMED, model=bare, needed=needed)
    if words:
        words = tuple(one for one in words if one not in ("true", "false"))
        return Field(key, label, Fill.CHOICES if several else Fill.CHOICE, words, needed=needed)
    read = _BY_READER.get(id(reader))
    if key == "is" or reader.__class__ is limit._Is:
        return Field(key, label, Fill.VALUE, needed=needed)
    if reader.__class__ is limit._When:
        return Field(key, label, Fill.CADENCE, needed=needed)
    if key == "skill" and read is None:
        read, kinds = Fill.THING, ("skill",)
    if read is None:
        return None
    fill = Fill.PICTURE if model is Picture and key == model.MAIN else read
    if kinds and fill is Fill.THING and set(kinds) <= _SHELVED:
        return Field(key, label, Fill.THINGS if several else fill, kinds, needed=needed, free=free)
    if fill is Fill.THING:
        fill = Fill.WORDS
    return Field(key, label, Fill.LINES if several and fill in (Fill.WORDS, Fill.DAY) else fill, needed=needed)


def _taken_apart(annotation: Any, metadata: Any) -> tuple[bool, bool, Any, type[Entry] | None, tuple[str, ...]]:
    """Whether several may stand there, whether names lead to it, how it is read, its entry, its words."""
    several = named = False
    reader: Any = None
    inner: type[Entry] | None = None
    words: tuple[str, ...] = ()
    open_ones = [(annotation, tuple(metadata))]
    while open_ones:
        here, marks = open_ones.pop(0)
        for mark in marks:
            if isinstance(mark, OneOf):
                words = mark.words
            elif isinstance(mark, parsed_values._Several):
                several = True
            elif isinstance(mark, parsed_values._Named):
                named = True
            elif id(mark) in _BY_READER or isinstance(mark, limit._Is | limit._When):
                reader = reader or mark
        origin = get_origin(here)
        if origin is Annotated:
            args = get_args(here)
            open_ones.insert(0, (args[0], args[1:]))
        elif origin in (Union, UnionType):
            if reader is None:
                open_ones = [(one, ()) for one in get_args(here)] + open_ones
        elif origin is tuple:
            open_ones.insert(0, (get_args(here)[0], ()))
        elif isinstance(origin, type) and issubclass(origin, Mapping):
            if named:
                open_ones.insert(0, (get_args(here)[1], ()))
        elif isinstance(here, type) and issubclass(here, Entry):
            inner = inner or here
    return several, named, reader, inner, words


def _label(description: str) -> str:
    """The first sentence of a docstring, without what only a writer of files needs."""
    first = re.split(r"(?<=[.;])\s", " ".join(description.split()))[0].rstrip(".;")
    return re.sub(r",? ?(?:each )?(?:with|as|in)? ?`[^`]*`", "", first).rstrip(":, ") or description.replace("`", "")
