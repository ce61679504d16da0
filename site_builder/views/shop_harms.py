"""What can hurt: each hazard once among those that are gathered, with every place where it is met."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from site_builder.notebook.gather import WORD_ORDER
from site_builder.notebook.index import Place
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.harm import Hazard
from site_builder.views.anchors import token
from site_builder.views.hazard import UNGRADED, peril
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, capital, sentence
from site_builder.views.scope import scope_of

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
    briefs: dict[str, None] = field(default_factory=dict)
    """The cures in few words; an empty one where somebody who tells it has written none."""

    @property
    def cure(self) -> str:
        """How to avoid it: in few words where all have written some, else as it stands."""
        return " ".join(self.briefs) if "" not in self.briefs else " ".join(way.plain for way in self.ways)


@dataclass(frozen=True, slots=True)
class Group:
    """All hazards of one signal word."""

    word: str
    meaning: str
    hazards: tuple[Gathered, ...]


def gathered_hazards(view: NotebookView) -> tuple[Group, ...]:
    """Hazards to people by signal word, gravest first; what harms the work alone stands on its own pages."""
    return by_word(gathered(view, in_order(view), set()))


def by_word(hazards: Iterable[Gathered]) -> tuple[Group, ...]:
    """Hazards under their signal words, gravest first; one without a word last."""
    found = [*hazards]
    return tuple(
        Group(word, MEANINGS[word], tuple(one for one in found if one.word == word))
        for word in (*WORD_ORDER[:3], UNGRADED)
        if any(one.word == word for one in found)
    )


def gathered(view: NotebookView, hazards: Iterable[tuple[Hazard, Place]], taken: set[str]) -> list[Gathered]:
    """Each hazard to people once, by signal word and name; ``taken`` are the anchors that stand already."""
    found: dict[tuple[str, str], Gathered] = {}
    for hazard, place in hazards:
        if hazard.word == "notice":
            continue
        word = str(hazard.word or UNGRADED)
        shown = peril(scope_of(view, place.owner), hazard)
        key = (word, str(hazard.hazard).strip().lower())
        if key not in found:
            found[key] = Gathered(_free(f"{word}-{token(key[1])}", taken), word, shown.what)
        one = found[key]
        one.harms |= {shown.harm: None} if shown.harm else {}
        one.ways.setdefault(shown.avoid, {})[where(view, place)] = None
        one.wear |= dict.fromkeys(shown.wear)
        one.away |= dict.fromkeys(shown.away)
        brief = hazard.brief.avoid if hazard.brief is not None else None
        one.briefs[capital(sentence(view.words(brief))).plain if brief is not None else ""] = None
        one.more |= dict.fromkeys(line for line in (shown.age, *shown.tail) if line)
    return [*found.values()]


def in_order(view: NotebookView) -> Iterator[tuple[Hazard, Place]]:
    """Tools and materials first: there a hazard is told in full, once for all work."""
    found = list(view.analysis.index.of(Hazard))
    yield from (pair for pair in found if pair[1].procedure is None)
    yield from (pair for pair in found if pair[1].procedure is not None)


def _free(id_: str, taken: set[str]) -> str:
    while id_ in taken:
        id_ += "-"
    taken.add(id_)
    return id_


def where(view: NotebookView, place: Place) -> Prose:
    """The tool, the material or the step where it is met."""
    anchor = view.anchor(place.step) if place.step is not None else ""
    return view.link(kind_of(place.owner), place.owner_id, anchor=anchor)
