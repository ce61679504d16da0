"""For whom the page can be read: the variants that occur on it, their values, who decides and when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.text import typeset
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.small import Variant


@dataclass(frozen=True, slots=True)
class Choice:
    """One dimension of the page."""

    dimension: str
    every: str
    values: tuple[tuple[str, str], ...]
    """(value, words)."""
    decided: Markup


def choices(view: ProcedureView) -> tuple[Choice, ...]:
    """The dimensions with at least two values, in the order in which they come up."""
    if str(view.own.procedure) not in view.common.varied:
        return ()
    seen: dict[str, dict[str, None]] = {}
    for dimension, value in _occurring(view.own):
        if view.is_variant(dimension):
            seen.setdefault(dimension, {})[value] = None
    found = []
    for dimension, values in seen.items():
        known = view.dimensions.get(dimension, ())
        all_values = tuple(dict.fromkeys((*known, *values)))
        if len(all_values) > 1:
            words = tuple((value, _label(view, dimension, value)) for value in all_values)
            found.append(Choice(dimension, f"every {dimension}", words, _decided(view, dimension)))
    return tuple(found)


def _label(view: ProcedureView, dimension: str, value: str) -> str:
    if dimension in view.dimensions or dimension in ("size", "season"):
        return f"no {dimension}" if value == "none" else typeset(f"{value} {dimension}")
    return value if dimension == "level" else str(Markup(view.variant(dimension, value)).striptags())


def _occurring(entry: Entry) -> Iterator[tuple[str, str]]:
    """(dimension, value) of every ``for`` and of every row of a table."""
    for row in entry.for_:
        for dimension, values in row.items():
            for value in values:
                yield str(dimension), str(value)
    if isinstance(entry, Limit) and isinstance(entry.is_, Table):
        names = [str(by.name) for by in entry.by]
        for rows, _ in entry.is_.cells():
            yield from zip(names, map(str, rows), strict=False)
    for value in entry.__dict__.values():
        yield from _inside(value)


def _inside(value: object) -> Iterator[tuple[str, str]]:
    if not value or isinstance(value, str):
        return
    if isinstance(value, Entry):
        yield from _occurring(value)
    elif isinstance(value, tuple):
        for one in value:
            yield from _inside(one)
    elif isinstance(value, dict):
        for one in value.values():
            yield from _inside(one)
    elif isinstance(value, Table):
        for _, cell in value.cells():
            yield from _occurring(cell)


def _decided(view: ProcedureView, dimension: str) -> Markup:
    variant = _declared(view, dimension)
    if variant is None:
        return Markup("")
    said: list[str | Markup] = []
    if variant.decided:
        when = in_words.listed(map(view.moment, variant.decided), "or")
        said.append(filled("The {} is decided at {}", dimension, when))
    elif "decided" in variant.asked:
        said.append(view.untold(f"who decides the {dimension}, and when, is not told yet", variant.at))
    said += [view.words(reason) for reason in variant.because]
    return in_words.joined_sentences([*said, *view.tail(variant, told=("because", "decided"))])


def _declared(view: ProcedureView, dimension: str) -> Variant | None:
    shop = view.nb.shop.variants if view.nb.shop is not None else {}
    for group in (view.own.variants, shop):
        for name, variant in group.items():
            if name == dimension:
                return variant
    return None
