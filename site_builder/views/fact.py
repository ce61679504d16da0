"""Facts of a thing: a name and what is told of it, each value on a line of its own where they differ by case."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.tree import Text
from site_builder.views.check import by_words
from site_builder.views.prose import Prose, capital, joined, listed, meant, prose, say
from site_builder.views.scope import Scope
from site_builder.views.table import besides
from site_builder.views.typeset import typeset
from site_builder.views.value import limit_value


@dataclass(frozen=True, slots=True)
class FactLine:
    """One value: ``notes`` say what else is told of it, ``rows`` are those of a table."""

    words: Prose
    notes: tuple[Prose, ...] = ()
    rows: tuple[tuple[str, FactLine], ...] = ()


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and what is told."""

    name: Prose
    lines: tuple[FactLine, ...]


def fact(name: str | Prose, said: str | Prose) -> Fact:
    """A fact in words."""
    return Fact(prose(name), (FactLine(capital(said)),))


def facts_of(scope: Scope, named: Mapping[Text, Several[Limit]]) -> tuple[Fact, ...]:
    """Properties, conditions or sizes."""
    return tuple(Fact(capital(typeset(str(name))), tuple(fact_line(scope, limit) for limit in limits))
                 for name, limits in named.items() if limits)


def fact_line(scope: Scope, limit: Limit, *, within: bool = False) -> FactLine:
    """A limit with whatever it says besides, ``within`` a table to go on from its row.

    Where its figure comes from stands below all facts (`sources`).
    """
    told = ("for",) if within else ("for", "source")
    notes = tuple(line for line in besides(scope, limit, None, told=told) if line)
    notes += tuple(say("Read by {}.", by_words(scope, by)) for by in limit.by if by.model_fields_set - {"name", "at"})
    only = scope.only(limit)
    if not isinstance(limit.is_, Table):
        value = limit_value(scope, limit).inline
        return FactLine(meant(only, value if within else capital(value)), notes)
    by = [str(one.name) for one in limit.by]
    rows = tuple((_row(scope, by, names), fact_line(scope, cell, within=True)) for names, cell in limit.is_.cells())
    return FactLine(only.words, notes, rows)


def _row(scope: Scope, by: list[str], names: Iterable[str]) -> str:
    """``the deck pattern``, ``temperature 12 to 20 °C``."""
    heads = zip(by, names, strict=False) if by else (("", name) for name in names)
    return capital(joined((scope.variant(n, str(row)) if n else typeset(str(row)) for n, row in heads), ", ")).plain


def sources(scope: Scope, named: Iterable[tuple[str, Entry]], whole: str | None = None) -> tuple[Prose, ...]:
    """Where the figures of a page come from, each source once with the names it stands for."""
    by_source: dict[str, list[str]] = {str(whole): []} if whole else {}
    for name, entry in named:
        if entry.source is not None:
            by_source.setdefault(str(entry.source), []).append(typeset(name))
    rest = "all else" if len(by_source) > 1 else "what is told here"
    return tuple(say("Source of {}: {}.", listed(dict.fromkeys(names)) if names else rest, scope.source(source))
                 for source, names in by_source.items())
