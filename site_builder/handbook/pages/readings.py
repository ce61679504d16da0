"""Values as a page shows them: what is told, in both systems, for which case, and what is still asked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup, escape

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import capital, listed, lowered
from site_builder.handbook.pages.proper import proper_names
from site_builder.handbook.pages.sayings import namer, valued
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Some, Word
from site_builder.views.counts import spelt
from site_builder.views.rhythm import trend as trend_words
from site_builder.views.typeset import typeset

NO_WORDS = Markup("")
ASKED = "not yet told"
_SOURCES = {"memory": "from memory", "measured": "measured in the shop", "maker": "the maker’s instructions"}


@dataclass(frozen=True, slots=True)
class Reading:
    """One value for the macro `reading` of ``things.j2``.

    ``untold`` is the address of the question that asks for it, ``doubtful`` of the one that asks to be sure;
    ``sides`` are (value, who said so) while it is disputed; ``when`` says in which case it holds; ``rows`` are
    the rows of a table.
    """

    main: str | Markup = ""
    other: str = ""
    untold: str = ""
    doubtful: str = ""
    sides: tuple[tuple[str, Markup], ...] = ()
    when: tuple[str | Markup, ...] = ()
    because: tuple[Markup, ...] = ()
    note: Markup = NO_WORDS
    rows: tuple[tuple[str, Reading], ...] = ()


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of the facts: a name and its values, several where they differ by case."""

    name: str | Markup
    readings: tuple[Reading, ...] = ()
    words: Markup = NO_WORDS


def facts_of(context: PageContext, named: Mapping[Text, tuple[Limit, ...]]) -> list[Fact]:
    """Properties, conditions or sizes as lines of the facts."""
    return [Fact(_name(name), readings(context, limits)) for name, limits in named.items() if limits]


def _name(name: str) -> Markup:
    return capital(typeset(str(name)))


def readings(context: PageContext, limits: Iterable[Limit]) -> tuple[Reading, ...]:
    """Every limit of one name."""
    return tuple(reading(context, limit) for limit in limits)


def reading(context: PageContext, limit: Limit) -> Reading:
    """One limit: value or table, its conditions, reasons and doubts."""
    because = (lowered(context.words(reason), proper_names(context.book)) for reason in limit.because)
    bare = Reading(when=tuple(_when(context, limit)), because=tuple(because), note=context.words(limit.note))
    if isinstance(limit.is_, Table):
        by = [str(one.name) for one in limit.by]
        return replace(bare, rows=tuple(_rows(context, limit.is_, by)))
    if limit.is_ is None:
        if len(limit.said) > 1:
            sides = tuple((_shown(context, said), context.person(str(said.who or "somebody"))) for said in limit.said)
            return replace(bare, sides=sides, untold=context.question_href(limit.at))
        return replace(bare, untold=context.question_href(limit.at))
    value = limit.is_.value
    if isinstance(value.what, Ask):
        return replace(bare, untold=context.question_href(limit.is_.at))
    asked = context.question_href(limit.is_.at)
    if isinstance(value.what, Word):
        return replace(bare, main=context.words(value.what.text))
    main, other = context.value(limit.is_)
    return replace(
        bare, main=spelt(main), other=spelt(other), untold=asked if isinstance(value.what, Some) else "",
        doubtful=asked if value.perhaps or limit.doubt else "",
    )


def _rows(context: PageContext, table: Table, by: list[str]) -> Iterator[tuple[str, Reading]]:
    for name, inside in table.rows.items():
        measured = bool(by) and str(name)[:1].isdigit()
        shown = typeset(f"{by[0]} {name}" if measured else str(name))
        if isinstance(inside, Table):
            yield shown, Reading(rows=tuple(_rows(context, inside, by[1:])))
        else:
            yield shown, reading(context, inside)


def _shown(context: PageContext, limit: Limit) -> str:
    return spelt(context.value(limit.written)[0]) if limit.written is not None else ASKED


def _when(context: PageContext, limit: Limit) -> Iterator[str | Markup]:
    if limit.for_:
        yield _case(limit)
    for name, leaf in limit.given.items():
        yield Markup("at {} {}").format(name, valued(context, leaf))
    for trend in limit.follows:
        yield context.said(trend_words(trend.value, namer(context)))


def _case(limit: Limit) -> str:
    return f"for {for_words(limit)}"


def for_words(entry: Entry) -> str:
    """The case in which an entry holds: `pattern deck`, `finish gloss or matt`."""
    return ", or ".join(
        " and ".join(typeset(f"{name} {' or '.join(map(str, values))}") for name, values in choice.items())
        for choice in entry.for_
    )


def source_words(context: PageContext, source: str) -> Markup:
    """Where a value comes from, as a reader understands it."""
    shop = context.book.notebook.shop
    head, _, rest = source.partition(" ")
    note = {str(id_): one for id_, one in shop.sources.items()}.get(head.rstrip(",;")) if shop is not None else None
    if note is not None:
        when = f" ({context.date(note.date)})" if note.date is not None else ""
        more = f", {typeset(rest)}" if rest else ""
        return Markup("{}{}{}").format(context.words(note.title, glossary=False), when, more)
    if source in _SOURCES:
        return escape(_SOURCES[source])
    if source.startswith("told by "):
        return Markup("told by {}").format(context.person(source.removeprefix("told by ")))
    return context.words(source, glossary=False)


def source_lines(context: PageContext, named: Iterable[tuple[str, Entry]], whole: str | None = None) -> list[Markup]:
    """Where the figures of a page come from, each source once with the names it stands for."""
    by_source: dict[str, list[str]] = {}
    if whole:
        by_source[str(whole)] = []
    for name, entry in named:
        if entry.source is not None:
            by_source.setdefault(str(entry.source), []).append(typeset(name))
    out = []
    for source, names in by_source.items():
        shown = source_words(context, source)
        what = listed(dict.fromkeys(names)) if names else "all else" if len(by_source) > 1 else "what is told here"
        out.append(Markup("Source of {}: {}.").format(what, shown))
    return out
