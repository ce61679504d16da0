"""What can hurt, place by place: at each machine, and at each craft that has none, all that is met there."""

from __future__ import annotations

from dataclasses import dataclass, field

from site_builder.notebook.gather import ages_of
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.model.things import Thing
from site_builder.notebook.work_places import ANYWHERE, WorkPlace, WorkPlaces
from site_builder.views.age import least_years
from site_builder.views.anchors import token
from site_builder.views.hazard import UNGRADED
from site_builder.views.limit_in_words import told
from site_builder.views.never import never_item
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, lowered
from site_builder.views.scope import scope_of
from site_builder.views.shop_harms import Gathered, Group, by_word, gathered, in_order, where
from site_builder.views.uses import Uses
from site_builder.views.wear import worn_by_work


@dataclass(frozen=True, slots=True)
class Forbidden:
    """A prohibition with its reason and its places."""

    words: Prose
    because: Prose
    where: Prose


@dataclass(frozen=True, slots=True)
class HarmPlace:
    """One place. While it is shut one reads the names of ``dangers`` and names and cures of ``warnings``."""

    id: str
    title: str
    link: Prose
    dangers: str
    warnings: tuple[tuple[str, str], ...]
    ungraded: str
    cautions: str
    groups: tuple[Group, ...]
    nevers: tuple[Forbidden, ...]
    away: tuple[tuple[Prose, Prose], ...]
    """Who must not be near, and from what."""
    wear: tuple[tuple[Prose, Prose], ...]
    """Work, and what is worn for it."""
    ages: str
    noise: Prose


@dataclass
class _Met:
    hazards: list[tuple[Hazard, Place]] = field(default_factory=list)
    nevers: list[tuple[Never, Place]] = field(default_factory=list)


def harm_places(uses: Uses) -> tuple[HarmPlace, ...]:
    """Every place of the shop where something can hurt or is forbidden, in the order of the work."""
    view = uses.view
    places = work_places(view)
    met = {place: _Met() for place in places.all}
    for hazard, at in in_order(view):
        for place in places.of(at):
            met[place].hazards.append((hazard, at))
    for never, at in view.analysis.index.of(Never):
        for place in places.of(at):
            met[place].nevers.append((never, at))
    taken: set[str] = set()
    found = [_place(uses, places, place, one, taken) for place, one in met.items()]
    return tuple(one for one in found if one.groups or one.nevers)


def work_places(view: NotebookView) -> WorkPlaces:
    """The places of the shop, in the order of the work."""
    return WorkPlaces(view.notebook, view.analysis.route.order)


def place_anchor(place: WorkPlace) -> str:
    """Where a place stands on the page."""
    return f"at-{token(place.id)}"


def place_title(view: NotebookView, place: WorkPlace) -> str:
    """What a place is called: as its machine, its craft or its work."""
    return "Anywhere in the shop" if place == ANYWHERE else view.title(place.kind, place.id)


def _place(uses: Uses, places: WorkPlaces, place: WorkPlace, met: _Met, taken: set[str]) -> HarmPlace:
    view = uses.view
    hazards = gathered(view, met.hazards, taken)
    work = [view.notebook.procedures[id_] for id_, at in places.of_procedure.items() if place in at]
    thing = view.notebook.things.get(place.id) if place.kind == "tool" else None
    return HarmPlace(
        place_anchor(place), place_title(view, place),
        NO_WORDS if place == ANYWHERE else view.link(place.kind, place.id),
        ", ".join(_name(one) for one in hazards if one.word == "danger"),
        tuple((one.what.plain, one.cure) for one in hazards if one.word == "warning"),
        ", ".join(_name(one) for one in hazards if one.word == UNGRADED),
        ", ".join(_name(one) for one in hazards if one.word == "caution"),
        by_word(hazards), _nevers(view, met), tuple(_away(view, met).items()),
        tuple(worn_by_work(view, [own for own in work if uses.worn_for.get(str(own.procedure))])),
        _ages(thing), _noise(view, thing),
    )


def _name(one: Gathered) -> str:
    return lowered(one.what).plain


def _ages(thing: Thing | None) -> str:
    years = [least_years(limit) for limit in ages_of(thing)] if thing is not None else []
    return max((one for one in years if one), key=float, default="")


def _noise(view: NotebookView, thing: Thing | None) -> Prose:
    if thing is None:
        return NO_WORDS
    scope = scope_of(view, thing)
    limits = next((found for name, found in thing.properties.items() if name == "noise"), ())
    return joined((told(scope, one.with_changes(note=None, source=None)) for one in limits), "; ")


def _nevers(view: NotebookView, met: _Met) -> tuple[Forbidden, ...]:
    found: dict[str, tuple[Prose, Prose, dict[Prose, None]]] = {}
    for never, place in met.nevers:
        item = never_item(scope_of(view, place.owner), never)
        found.setdefault(str(never.do).strip().lower(), (item.words, joined(item.tail), {}))[2][
            where(view, place)] = None
    return tuple(Forbidden(words, because, joined(at, ", ")) for words, because, at in found.values())


def _away(view: NotebookView, met: _Met) -> dict[Prose, Prose]:
    found: dict[Prose, dict[Prose, None]] = {}
    for hazard, place in met.hazards:
        for away in hazard.away:
            found.setdefault(capital(view.words(away)), {})[where(view, place)] = None
    return {who: joined(at, ", ") for who, at in found.items()}
