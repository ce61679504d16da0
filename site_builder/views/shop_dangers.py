"""What kills or maims in the whole shop: dangers on cards, one for all that one thing does, with their places.

Of a family the hazard that bears its name tells the harm for all; each says in its own words how to avoid it.
"""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.work_places import WorkPlaces
from site_builder.views.anchors import token
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import NO_WORDS, Prose, Ref, capital, joined, linked, say, sentence, unstopped
from site_builder.views.scope import scope_of
from site_builder.views.shop_harms import in_order
from site_builder.views.shop_places import place_anchor, place_title, work_places


@dataclass(frozen=True, slots=True)
class Deadly:
    """One card of what kills or maims: a danger, or a family of dangers that one thing makes."""

    id: str
    what: Prose
    harm: Prose
    cures: tuple[Prose, ...]
    at: Prose
    """The places where it stands in full."""


def deadly(view: NotebookView) -> tuple[Deadly, ...]:
    """The dangers of the shop, those of one family or one name on one card, with the places where each stands."""
    places = work_places(view)
    found: dict[str, list[tuple[Hazard, Place]]] = {}
    for hazard, at in in_order(view):
        if hazard.word == "danger":
            found.setdefault(str(hazard.family or hazard.hazard).strip().lower(), []).append((hazard, at))
    return tuple(_card(view, places, name, hazards) for name, hazards in found.items())


def _card(view: NotebookView, places: WorkPlaces, name: str, hazards: list[tuple[Hazard, Place]]) -> Deadly:
    first = hazards[0][0]
    what = capital(unstopped(view.words(first.family or first.hazard)))
    named = [(one, at) for one, at in hazards if str(one.hazard).strip().lower() == name]
    harms = [harm for one, at in named or hazards if (harm := _harm(view, one, at))]
    cures: dict[Prose, None] = {}
    for one, at in hazards:
        scope = scope_of(view, at.owner)
        said = one.brief.avoid if one.brief is not None and one.brief.avoid is not None else one.avoid
        cures[capital(sentence(scope.words(said))) if said is not None else
              capital(sentence(scope.untold("how to avoid it is not told yet", one.at)))] = None
    met = dict.fromkeys(place for _, at in hazards for place in places.of(at))
    at_places = joined((linked(place_title(view, place), Ref("here", "", place_anchor(place)))
                        for place in met), ", ")
    return Deadly(f"kills-{token(name)}", what, joined(dict.fromkeys(capital(sentence(harm)) for harm in harms)),
                  tuple(cures), say("{}.", at_places) if at_places else NO_WORDS)


def _harm(view: NotebookView, hazard: Hazard, at: Place) -> Prose:
    said = hazard.brief.harm if hazard.brief is not None and hazard.brief.harm is not None else hazard.harm
    return scope_of(view, at.owner).words(said)
