"""For whom the page can be read: the variants that occur on it, their values, who decides and when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.small import Variant
from site_builder.views import rhythm, variant_words
from site_builder.views.prose import NO_WORDS, Prose, listed, say, sentences
from site_builder.views.scope import ProcedureScope


@dataclass(frozen=True, slots=True)
class VariantChoice:
    """One dimension of the page."""

    dimension: str
    every: str
    values: tuple[tuple[str, str], ...]
    """(value, words)."""
    decided: Prose


def choices(scope: ProcedureScope) -> tuple[VariantChoice, ...]:
    """The dimensions with at least two values, in the order in which they come up."""
    if str(scope.own.procedure) not in scope.view.varied:
        return ()
    seen: dict[str, dict[str, None]] = {}
    for dimension, value in _occurring(scope.own):
        if scope.is_variant(dimension):
            seen.setdefault(dimension, {})[value] = None
    found = []
    for dimension, values in seen.items():
        known = scope.dimensions.get(dimension, ())
        all_values = tuple(dict.fromkeys((*known, *values)))
        if len(all_values) > 1:
            words = tuple((value, _label(scope, dimension, value)) for value in all_values)
            found.append(VariantChoice(dimension, variant_words.every(dimension), words, _decided(scope, dimension)))
    return tuple(found)


def _label(scope: ProcedureScope, dimension: str, value: str) -> str:
    if dimension in scope.dimensions or dimension in ("size", "season"):
        return f"no {dimension}" if value == "none" else variant_words.named(dimension, value)
    return value if dimension == "level" else scope.variant(dimension, value).plain


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
    for value in entry.fields().values():
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


def _decided(scope: ProcedureScope, dimension: str) -> Prose:
    variant = _declared(scope, dimension)
    if variant is None:
        return NO_WORDS
    said: list[str | Prose] = []
    if variant.decided:
        when = listed((rhythm.at_moment(scope.moment(leaf)) for leaf in variant.decided), "or")
        said.append(say("{} {}", variant_words.decided(dimension), when))
    elif "decided" in variant.asked:
        said.append(scope.untold(f"who decides {variant_words.name(dimension)}, and when, is not told yet", variant.at))
    said += [scope.words(reason) for reason in variant.because]
    return scope.meant(variant, sentences([*said, *scope.tail(variant, told=("because", "decided"))]))


def _declared(scope: ProcedureScope, dimension: str) -> Variant | None:
    shop = scope.nb.shop.variants if scope.nb.shop is not None else {}
    for group in (scope.own.variants, shop):
        for name, variant in group.items():
            if name == dimension:
                return variant
    return None
