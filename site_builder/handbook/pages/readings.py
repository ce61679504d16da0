"""Values as a page shows them: what is told, in both systems, for which case, and what is still asked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup, escape

from site_builder.handbook.book import UNWRITTEN
from site_builder.handbook.pages.in_words import capital, listed, spelt
from site_builder.handbook.pages.in_words import trend as trend_words
from site_builder.handbook.pages.sayings import namer, value_words, valued
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.handbook.theme import token
from site_builder.notebook.finding import At
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Some, Word, bounds

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


def question_href(pen: Pen, at: At) -> str:
    """The question about a place of the notebook, on the page of what is still unwritten."""
    return pen.to(UNWRITTEN, f"q-{token(at.path)}-{at.line}")


def facts_of(pen: Pen, named: Mapping[Text, tuple[Limit, ...]]) -> list[Fact]:
    """Properties, conditions or sizes as lines of the facts."""
    return [Fact(_name(name), readings(pen, limits)) for name, limits in named.items() if limits]


def _name(name: str) -> Markup:
    return capital(typeset(str(name)))


def readings(pen: Pen, limits: Iterable[Limit]) -> tuple[Reading, ...]:
    """Every limit of one name."""
    return tuple(reading(pen, limit) for limit in limits)


def reading(pen: Pen, limit: Limit) -> Reading:
    """One limit: value or table, its conditions, reasons and doubts."""
    bare = Reading(
        when=tuple(_when(pen, limit)), because=tuple(pen.words(reason) for reason in limit.because),
        note=pen.words(limit.note),
    )
    if isinstance(limit.is_, Table):
        by = [str(one.name) for one in limit.by]
        return replace(bare, rows=tuple(_rows(pen, limit.is_, by)))
    if limit.is_ is None:
        if len(limit.said) > 1:
            sides = tuple((_shown(pen, said), pen.person(str(said.who or "somebody"))) for said in limit.said)
            return replace(bare, sides=sides, untold=question_href(pen, limit.at))
        return replace(bare, untold=question_href(pen, limit.at))
    value = limit.is_.value
    if isinstance(value.what, Ask):
        return replace(bare, untold=question_href(pen, limit.is_.at))
    asked = question_href(pen, limit.is_.at)
    if isinstance(value.what, Word):
        return replace(bare, main=pen.words(value.what.text))
    main, other = pen.value(limit.is_)
    return replace(
        bare, main=spelt(main), other=spelt(other), untold=asked if isinstance(value.what, Some) else "",
        doubtful=asked if value.perhaps or limit.doubt else "",
    )


def _rows(pen: Pen, table: Table, by: list[str]) -> Iterator[tuple[str, Reading]]:
    for name, inside in table.rows.items():
        measured = bool(by) and str(name)[:1].isdigit()
        shown = typeset(f"{by[0]} {name}" if measured else str(name))
        if isinstance(inside, Table):
            yield shown, Reading(rows=tuple(_rows(pen, inside, by[1:])))
        else:
            yield shown, reading(pen, inside)


def _shown(pen: Pen, limit: Limit) -> str:
    return spelt(pen.value(limit.written)[0]) if limit.written is not None else ASKED


def _when(pen: Pen, limit: Limit) -> Iterator[str | Markup]:
    if limit.for_:
        yield _case(limit)
    for name, leaf in limit.given.items():
        yield Markup("at {} {}").format(name, valued(pen, leaf))
    for trend in limit.follows:
        yield trend_words(trend.value, namer(pen))


def _case(limit: Limit) -> str:
    return f"for {for_words(limit)}"


def for_words(entry: Entry) -> str:
    """The case in which an entry holds: `pattern deck`, `finish gloss or matt`."""
    return ", or ".join(
        " and ".join(typeset(f"{name} {' or '.join(map(str, values))}") for name, values in choice.items())
        for choice in entry.for_
    )


def age_words(pen: Pen, limits: Iterable[Limit]) -> Markup:
    """`from 16 years of age`, for each case in which an age is asked."""
    out: list[Markup] = []
    for limit in limits:
        years = least_years(limit)
        said: str | Markup = f"from {years} years of age" if years else value_words(pen, limit)
        out.append(Markup("{}{}").format(said, f", {_case(limit)}" if limit.for_ else ""))
    return Markup("; ").join(out)


def least_years(limit: Limit) -> str:
    """The least age in years, as digits; empty where the limit says no such thing."""
    told = bounds(limit.written.value) if limit.written is not None else None
    return f"{float(told.shown(told.low)):g}" if told is not None and told.low is not None else ""


def source_words(pen: Pen, source: str) -> Markup:
    """Where a value comes from, as a reader understands it."""
    shop = pen.book.notebook.shop
    head, _, rest = source.partition(" ")
    note = {str(id_): one for id_, one in shop.sources.items()}.get(head.rstrip(",;")) if shop is not None else None
    if note is not None:
        when = f" ({pen.date(note.date)})" if note.date is not None else ""
        more = f", {typeset(rest)}" if rest else ""
        return Markup("{}{}{}").format(pen.words(note.title, glossary=False), when, more)
    if source in _SOURCES:
        return escape(_SOURCES[source])
    if source.startswith("told by "):
        return Markup("told by {}").format(pen.person(source.removeprefix("told by ")))
    return pen.words(source, glossary=False)


def source_lines(pen: Pen, named: Iterable[tuple[str, Entry]], whole: str | None = None) -> list[Markup]:
    """Where the figures of a page come from, each source once with the names it stands for."""
    by_source: dict[str, list[str]] = {}
    if whole:
        by_source[str(whole)] = []
    for name, entry in named:
        if entry.source is not None:
            by_source.setdefault(str(entry.source), []).append(typeset(name))
    out = []
    for source, names in by_source.items():
        shown = source_words(pen, source)
        what = capital(listed(dict.fromkeys(names))) if names else "What no other source is named for"
        out.append(Markup("{}: {}.").format(what, shown))
    return out
