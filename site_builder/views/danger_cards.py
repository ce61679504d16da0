"""What can hurt, at the head of a page of work: a card each, the harm and its cure together in few words.

What a tool, a material or shared work brings along stands in full on the page of staying whole, under its place; what a
step of one's own brings stands in full directly before it. One danger that several bring is one card, and so is a
family of dangers. Nothing is shortened by the program: a hazard without words in brief says them all, unless they
stand in full on the same page and are too long for a card.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from site_builder.notebook.gather import WORD_ORDER, From, hazards_of, used_procedures
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.things import Material, Thing
from site_builder.notebook.references import all_steps
from site_builder.views.age import barred_words
from site_builder.views.blocks import Peril, Signal
from site_builder.views.hazard import UNGRADED, peril, signals
from site_builder.views.prose import (
    EVERY,
    Linked,
    Prose,
    Ref,
    capital,
    joined,
    linked,
    listed,
    lowered,
    say,
    sentence,
    unstopped,
)
from site_builder.views.scope import ProcedureScope
from site_builder.views.shop_places import place_anchor, place_title

WHOLE = "staying-whole.md"
ROOM = {"danger": 240, "warning": 190}
"""How many letters a card has room for, harm and cure together."""


@dataclass(frozen=True, slots=True)
class Cards:
    """What can hurt at a piece of work, told before its first step."""

    frames: tuple[Signal, ...]
    at_steps: tuple[Prose, ...]
    """What only bites lightly, by name: at which step it stands, or with what it comes."""
    places: tuple[Prose, ...]
    """Where what comes from elsewhere stands in full."""


@dataclass
class _Card:
    name: str
    met: list[tuple[Hazard, From, tuple[Prose, ...]]] = field(default_factory=list)


def cards(scope: ProcedureScope) -> Cards:
    """Gravest first; a notice, which harms the work alone, stands at its step and on the page of its thing."""
    homes = _homes(scope)
    frames: dict[str, dict[str, _Card]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
    light: dict[Prose, dict[Prose, None]] = {}
    elsewhere: list[From] = []
    for gathered in hazards_of(scope.nb, scope.own):
        hazard = gathered.item
        if not isinstance(hazard, Hazard):
            continue
        steps = homes.get(id(hazard), ())
        own = gathered.origin is scope.own and not steps
        if hazard.word == "notice" and not own:
            continue
        if gathered.origin is not scope.own:
            elsewhere.append(gathered)
        if hazard.word == "caution" and not own:
            light.setdefault(lowered(unstopped(scope.words(hazard.hazard))), {}).update(
                dict.fromkeys(steps or _places(scope, [gathered])))
            continue
        word = str(hazard.word) if hazard.word is not None else UNGRADED
        name = str(hazard.family or hazard.hazard).strip().lower()
        frames[word].setdefault(name, _Card(name)).met.append((hazard, gathered, steps))
    return Cards(
        tuple(Signal(word=word, perils=tuple(_peril(scope, word, card) for card in found.values()), card=True)
              for word, found in frames.items() if found),
        tuple(_light(what, tuple(at)) for what, at in light.items()),
        _places(scope, elsewhere),
    )


def _light(what: Prose, at: tuple[Prose, ...]) -> Prose:
    """``hot foot (step 4)``; of what comes from elsewhere its name alone, leading to its place."""
    first = at[0][0] if at and len(at[0]) == 1 else None
    if len(at) == 1 and isinstance(first, Linked) and first.to.kind == "chapter":
        return linked(what.plain, first.to)
    return say("{} ({})", what, joined(at, ", ")) if at else what


def used_signals(scope: ProcedureScope, used: Procedure) -> tuple[Signal, ...]:
    """What can hurt in shared work, in full: told before the step that does it, with the step there."""
    found: list[Signal] = []
    id_ = str(used.procedure)
    for work in (used, *all_steps(used)):
        grave = [one for one in work.hazards if one.word != "notice"]
        link = scope.view.link("procedure", id_, f"{scope.view.title('procedure', id_)}, "
                               f"{scope.view.step_name(used, work)}", scope.view.anchor(work)) \
            if isinstance(work, Step) else scope.view.link("procedure", id_)
        for frame in signals(scope, grave):
            there = tuple(replace(one, tail=(*one.tail, say("More at {}.", link))) for one in frame.perils)
            found.append(replace(frame, perils=there))
    order = (*WORD_ORDER, UNGRADED)
    merged = {word: tuple(one for frame in found if frame.word == word for one in frame.perils) for word in order}
    return tuple(Signal(word=word, perils=perils) for word, perils in merged.items() if perils)


def _homes(scope: ProcedureScope) -> Mapping[int, tuple[Prose, ...]]:
    """The steps of this page at which a hazard stands in full, for own and for used work."""
    homes: dict[int, dict[Prose, None]] = {}
    for step in all_steps(scope.own):
        for hazard in step.hazards:
            homes.setdefault(id(hazard), {})[scope.step_link(step)] = None
        if step.use is None or str(step.use) not in scope.nb.procedures:
            continue
        first = scope.nb.procedures[str(step.use)]
        for used in (first, *used_procedures(scope.nb, first)):
            for work in (used, *all_steps(used)):
                for hazard in work.hazards:
                    homes.setdefault(id(hazard), {})[scope.step_link(step)] = None
    return {entry: tuple(links) for entry, links in homes.items()}


def _peril(scope: ProcedureScope, word: str, card: _Card) -> Peril:
    hazards = [hazard for hazard, _, _ in card.met]
    if len(hazards) == 1 and card.met[0][1].origin is scope.own and not card.met[0][2]:
        return peril(scope, hazards[0])  # of the whole work: here it stands in full
    family = hazards[0].family if len({str(one.hazard).lower() for one in hazards}) > 1 else None
    named = [one for one in hazards if str(one.hazard).strip().lower() == card.name]
    harms = _each(scope, (_harm(one) for one in named[:1] or hazards))  # of one name, the others say the same
    cures: dict[Prose, None] = {}
    steps: dict[Prose, None] = {}
    for hazard, gathered, at in card.met:
        steps |= dict.fromkeys(at)
        if at and named and hazard not in named:
            continue  # the family has told its cure, and this one's own stands in full at the step
        whole_work = gathered.origin is scope.own and not at
        cure = hazard.avoid if whole_work else _cure(word, hazard, bool(at) and gathered.origin is scope.own)
        if cure is not None:
            cures[capital(sentence(scope.words(cure)))] = None
        elif hazard.avoid is None:
            cures[capital(sentence(scope.untold("how to avoid it is not told yet", hazard.at)))] = None
    if steps:
        cures[say("See {}.", listed(steps))] = None
    things = [gathered for _, gathered, _ in card.met if isinstance(gathered.origin, Thing)]
    origins = dict.fromkeys(_called(scope, gathered) for gathered in things)
    tail = (say("With {}.", listed(origins)),) if len(origins) > 1 else ()
    away = tuple(dict.fromkeys(scope.lowered(scope.who(str(who).removesuffix("."))) for one in hazards
                               for who in one.away))
    ages = joined(dict.fromkeys(barred_words(scope, one.age) for one in hazards if one.age))
    kinds = {scope.only(one) for one in hazards}
    what = capital(unstopped(scope.words(family if family is not None else hazards[0].hazard)))
    return Peril(what, harms, joined(cures), away=away, age=ages, tail=tail,
                 only=kinds.pop() if len(kinds) == 1 else EVERY)


def _called(scope: ProcedureScope, gathered: From) -> Prose:
    """A thing by the name that stands before the first comma of its title."""
    kind = "material" if isinstance(gathered.origin, Material) else "tool"
    title = scope.view.title(kind, gathered.origin_id)
    return scope.view.link(kind, gathered.origin_id, lowered(title.partition(",")[0]))


def _harm(hazard: Hazard) -> str | None:
    return hazard.brief.harm if hazard.brief is not None and hazard.brief.harm is not None else hazard.harm


def _cure(word: str, hazard: Hazard, here_in_full: bool) -> str | None:
    """In brief, else as it stands; None where it has no room and stands in full further down this page."""
    if hazard.brief is not None and hazard.brief.avoid is not None:
        return hazard.brief.avoid
    letters = len(str(_harm(hazard) or "")) + len(str(hazard.avoid or ""))
    return None if here_in_full and letters > ROOM.get(word, ROOM["warning"]) else hazard.avoid


def _each(scope: ProcedureScope, texts: Iterable[str | None]) -> Prose:
    return joined(dict.fromkeys(capital(sentence(scope.words(text))) for text in texts if text))


def _places(scope: ProcedureScope, found: Iterable[From]) -> tuple[Prose, ...]:
    """The places of what comes from tools, materials and shared work: of those, the ones at which this work is done."""
    here = scope.view.places_of_procedure(scope.id)
    places: dict[Prose, None] = {}
    for gathered in found:
        of_thing = scope.view.places_of_thing(gathered.origin_id) if isinstance(gathered.origin, Thing) else \
            scope.view.places_of_procedure(gathered.origin_id)
        for place in [one for one in of_thing if one in here] or of_thing[:1]:
            title = place_title(scope.view, place)
            places[linked(title, Ref("chapter", WHOLE, place_anchor(place)))] = None
    return tuple(places)



