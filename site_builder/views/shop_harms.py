"""What can hurt in the whole shop: each hazard once, with every place where it is met."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from site_builder.notebook.gather import WORD_ORDER
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.references import kind_of
from site_builder.views.anchors import token
from site_builder.views.blocks import Grid
from site_builder.views.hazard import UNGRADED, peril
from site_builder.views.never import never_item
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, capital, joined
from site_builder.views.scope import scope_of
from site_builder.views.thing import table_of

# What the words mean: ANSI Z535.6 and ISO 3864, in our own words, from memory.
MEANINGS = {
    "danger": "Will kill or maim, if it is not avoided.",
    "warning": "Can kill or maim.",
    "caution": "Can hurt so that it heals.",
    UNGRADED: "Nobody has said yet how grave it is. Treat it as grave.",
}


@dataclass
class Gathered:
    """One hazard of the shop. ``ways``: how to avoid it, and the places that say so."""

    id: str
    word: str
    what: Prose
    harms: dict[Prose, None] = field(default_factory=dict)
    ways: dict[Prose, dict[Prose, None]] = field(default_factory=dict)
    wear: dict[Prose, None] = field(default_factory=dict)
    away: dict[Prose, None] = field(default_factory=dict)
    more: dict[Prose, None] = field(default_factory=dict)
    """Ages, reasons, notes."""


@dataclass(frozen=True, slots=True)
class Group:
    """All hazards of one signal word."""

    word: str
    meaning: str
    hazards: tuple[Gathered, ...]


def gathered_hazards(view: NotebookView) -> tuple[Group, ...]:
    """Hazards to people by signal word, gravest first; what harms the work alone stands on its own pages."""
    found: dict[tuple[str, str], Gathered] = {}
    taken: set[str] = set()
    for hazard, place in _in_order(view):
        if hazard.word == "notice":
            continue
        word = str(hazard.word or UNGRADED)
        shown = peril(scope_of(view, place.owner), hazard)
        key = (word, str(hazard.hazard).strip().lower())
        if key not in found:
            found[key] = Gathered(_free(f"{word}-{token(key[1])}", taken), word, shown.what)
        one = found[key]
        one.harms |= {shown.harm: None} if shown.harm else {}
        one.ways.setdefault(shown.avoid, {})[_where(view, place)] = None
        one.wear |= dict.fromkeys(shown.wear)
        one.away |= dict.fromkeys(shown.away)
        one.more |= dict.fromkeys(line for line in (shown.age, *shown.tail) if line)
    return tuple(
        Group(word, MEANINGS[word], tuple(one for one in found.values() if one.word == word))
        for word in (*WORD_ORDER[:3], UNGRADED)
        if any(one.word == word for one in found.values())
    )


def _in_order(view: NotebookView) -> Iterator[tuple[Hazard, Place]]:
    """Tools and materials first: there a hazard is told in full, once for all work."""
    found = list(view.analysis.index.of(Hazard))
    yield from (pair for pair in found if pair[1].procedure is None)
    yield from (pair for pair in found if pair[1].procedure is not None)


def _free(id_: str, taken: set[str]) -> str:
    while id_ in taken:
        id_ += "-"
    taken.add(id_)
    return id_


def _where(view: NotebookView, place: Place) -> Prose:
    """The tool, the material or the step where it is met."""
    anchor = view.anchor(place.step) if place.step is not None else ""
    return view.link(kind_of(place.owner), place.owner_id, anchor=anchor)


def gathered_nevers(view: NotebookView) -> Grid | None:
    """Every prohibition of the shop, each once, with its reason and its places."""
    places: dict[str, tuple[Never, Place, dict[Prose, None]]] = {}
    for never, place in view.analysis.index.of(Never):
        key = str(never.do).strip().lower()
        places.setdefault(key, (never, place, {}))[2][_where(view, place)] = None
    rows = []
    for never, place, where in places.values():
        told = never_item(scope_of(view, place.owner), never)
        rows.append((told.words, joined(told.tail), joined(where, ", ")))
    return table_of("Each with its reason", ("What", "Because", "Where"), rows)


def keep_away(view: NotebookView) -> Grid | None:
    """Who must not be near what."""
    found: dict[Prose, dict[Prose, None]] = {}
    for hazard, place in view.analysis.index.of(Hazard):
        for away in hazard.away:
            found.setdefault(capital(view.words(away)), {})[_where(view, place)] = None
    rows = [(who, joined(where, ", ")) for who, where in found.items()]
    return table_of("Who keeps away from what", ("Who", "From"), rows)
