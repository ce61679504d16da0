"""What can hurt in the whole shop: each hazard once, with every place where it is met."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.harms import UNWORDED, ban, signal
from site_builder.handbook.pages.in_words import capital, sentence
from site_builder.handbook.pages.thing_view import Ledger, ledger
from site_builder.notebook.gather import WORD_ORDER
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.references import kind_of
from site_builder.views.anchors import token

# What the words mean: ANSI Z535.6 and ISO 3864, in our own words, from memory.
MEANINGS = {
    "danger": "Will kill or maim, if it is not avoided.",
    "warning": "Can kill or maim.",
    "caution": "Can hurt so that it heals.",
    UNWORDED: "Nobody has said yet how grave it is. Treat it as grave.",
}


@dataclass
class Gathered:
    """One hazard of the shop. ``ways``: how to avoid it, and the places that say so."""

    id: str
    word: str
    what: Markup
    harms: dict[Markup, None] = field(default_factory=dict)
    ways: dict[Markup, dict[Markup, None]] = field(default_factory=dict)
    wear: dict[Markup, None] = field(default_factory=dict)
    away: dict[str, None] = field(default_factory=dict)
    ages: dict[Markup, None] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Group:
    """All hazards of one signal word."""

    word: str
    meaning: str
    hazards: tuple[Gathered, ...]


def gathered_hazards(context: PageContext) -> tuple[Group, ...]:
    """Hazards to people by signal word, gravest first; what harms the work alone stands on its own pages."""
    found: dict[tuple[str, str], Gathered] = {}
    taken: set[str] = set()
    for hazard, place in _in_order(context):
        shown = signal(context, hazard)
        if shown.word == "notice":
            continue
        key = (shown.word, str(hazard.hazard).strip().lower())
        if key not in found:
            found[key] = Gathered(_free(f"{shown.word}-{token(key[1])}", taken), shown.word, shown.what)
        one = found[key]
        if shown.harm:
            one.harms[sentence(shown.harm)] = None
        one.ways.setdefault(sentence(shown.avoid), {})[_where(context, place)] = None
        one.wear |= dict.fromkeys(shown.wear)
        one.away |= dict.fromkeys(shown.away)
        if shown.age:
            one.ages[shown.age] = None
    return tuple(
        Group(word, MEANINGS[word], tuple(one for one in found.values() if one.word == word))
        for word in (*WORD_ORDER[:3], UNWORDED)
        if any(one.word == word for one in found.values())
    )


def _in_order(context: PageContext) -> Iterator[tuple[Hazard, Place]]:
    """Tools and materials first: there a hazard is told in full, once for all work."""
    found = list(context.book.analysis.index.of(Hazard))
    yield from (pair for pair in found if pair[1].procedure is None)
    yield from (pair for pair in found if pair[1].procedure is not None)


def _free(id_: str, taken: set[str]) -> str:
    while id_ in taken:
        id_ += "-"
    taken.add(id_)
    return id_


def _where(context: PageContext, place: Place) -> Markup:
    """The tool, the material or the step where it is met."""
    anchor = context.book.anchor(place.step) if place.step is not None else ""
    return context.link(kind_of(place.owner), place.owner_id, anchor=anchor)


def gathered_nevers(context: PageContext) -> Ledger | None:
    """Every prohibition of the shop, each once, with its reason and its places."""
    places: dict[str, tuple[Never, dict[Markup, None]]] = {}
    for never, place in context.book.analysis.index.of(Never):
        key = str(never.do).strip().lower()
        places.setdefault(key, (never, {}))[1][_where(context, place)] = None
    rows: list[tuple[Markup | str, ...]] = []
    for never, where in places.values():
        told = ban(context, never)
        rows.append((told.what, told.because, Markup(", ").join(where)))
    return ledger("Each with its reason", ("What", "Because", "Where"), rows)


def keep_away(context: PageContext) -> Ledger | None:
    """Who must not be near what."""
    found: dict[Markup, dict[Markup, None]] = {}
    for hazard, place in context.book.analysis.index.of(Hazard):
        for away in hazard.away:
            found.setdefault(capital(context.words(away)), {})[_where(context, place)] = None
    rows: list[tuple[Markup | str, ...]] = [(who, Markup(", ").join(where)) for who, where in found.items()]
    return ledger("Who keeps away from what", ("Who", "From"), rows)

