"""First, stay whole: what can hurt, gravest first, each told once; what is forbidden; what to wear."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from site_builder.notebook.gather import (
    WORD_ORDER,
    harm_untold,
    hazards_of,
    material_uses,
    things_of,
    used_procedures,
)
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.things import Material
from site_builder.notebook.references import all_steps
from site_builder.views.age import barred_words
from site_builder.views.blocks import NeverBlock, Peril, Signal
from site_builder.views.dates import date_words
from site_builder.views.never import gathered_nevers, origin_of
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, say, sentence, unstopped
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.wear import worn_cases, worn_links

UNGRADED = "hazard"
"""Stands on the plate of a hazard for which nobody has chosen a signal word yet."""


@dataclass(frozen=True, slots=True)
class Whole:
    """The section."""

    signals: tuple[Signal, ...]
    never: NeverBlock | None
    wear: tuple[tuple[Prose, Prose], ...]
    sheets: tuple[Prose, ...]
    untold: tuple[Prose, ...]
    """What may hurt here and nobody has said how."""


def gravity(hazard: Hazard) -> int:
    """Danger first; a hazard without a word last."""
    return WORD_ORDER.index(hazard.word) if hazard.word is not None else len(WORD_ORDER)


def stay_whole(scope: ProcedureScope) -> Whole | None:
    """Everything gathered from the work, its tools and materials, and the shared work it uses."""
    signals = gathered_signals(scope)
    never = gathered_nevers(scope)
    wear = tuple((capital(when), capital(what)) for when, what in worn_cases(scope.view, scope.own))
    sheets = _sheets(scope)
    untold = tuple(_untold(scope))
    return Whole(signals, never, wear, sheets, untold) if signals or never or wear or sheets or untold else None


def _untold(scope: ProcedureScope) -> Iterator[Prose]:
    if "hazards" in scope.own.asked:
        yield scope.untold("What can hurt at this work is not told yet", scope.own.at)
    for step in all_steps(scope.own):
        if "hazards" in step.asked:
            yield say("{}: {}", capital(scope.step_link(step)), scope.untold("what can hurt is not told yet", step.at))
    for id_, thing in things_of(scope.nb, scope.own):
        if harm_untold(scope.nb, thing):
            link = scope.view.link("material" if isinstance(thing, Material) else "tool", id_)
            yield say("{}: {}", link, scope.untold("what it can do to you is not told yet", thing.at))


def gathered_signals(scope: ProcedureScope, *, in_brief: bool = False) -> tuple[Signal, ...]:
    """Every hazard of the work in the frame of its word; ``in_brief`` for a card, in few words where some are written.

    What is told in full at its step only names it here.
    """
    homes = _homes(scope)
    frames: dict[str, dict[tuple[str, str], Peril]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
    for gathered in hazards_of(scope.nb, scope.own):
        hazard = gathered.item
        if not isinstance(hazard, Hazard):
            continue
        key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
        frame = frames[str(hazard.word) if hazard.word is not None else UNGRADED]
        if key in frame:
            continue
        home = homes.get(id(hazard))
        if in_brief:
            frame[key] = _brief_peril(scope, hazard)
        elif home is not None:
            frame[key] = Peril(_what(scope, hazard), _told(scope, hazard.harm), home,
                               age=barred_words(scope, hazard.age), only=scope.only(hazard))
        else:
            origin = origin_of(scope, gathered.origin, gathered.origin_id)
            frame[key] = peril(scope, hazard, origin)
    return tuple(Signal(word=word, perils=tuple(found.values())) for word, found in frames.items() if found)


def _homes(scope: ProcedureScope) -> dict[int, Prose]:
    """Hazards special to a step stand there in full; here a line leads to them, for own and for used work."""
    homes: dict[int, Prose] = {}
    for step in all_steps(scope.own):
        for hazard in step.hazards:
            homes[id(hazard)] = say("See {}.", scope.step_link(step))
    for used in used_procedures(scope.nb, scope.own):
        for step in all_steps(used):
            for hazard in step.hazards:
                title = scope.view.title("procedure", str(used.procedure))
                shown = f"{title}, {scope.view.step_name(used, step)}"
                link = scope.view.link("procedure", str(used.procedure), shown, scope.view.anchor(step))
                avoid = sentence(scope.words(hazard.avoid)) if hazard.avoid is not None else NO_WORDS
                homes[id(hazard)] = joined((avoid, say("More at {}.", link)))
    return homes


def _what(scope: Scope, hazard: Hazard) -> Prose:
    """What can hurt, with a capital and without a full stop: a face sets its own."""
    return capital(unstopped(scope.words(hazard.hazard)))


def _told(scope: Scope, text: str | None) -> Prose:
    return capital(sentence(scope.words(text)))


def peril(scope: Scope, hazard: Hazard, origin: Prose = NO_WORDS) -> Peril:
    """One hazard in full."""
    tail = [*scope.tail(hazard, told=("because", "avoid", "word"))]
    if hazard.because:
        tail.insert(0, capital(scope.inline_why(hazard)))
    if origin:
        tail.append(say("With {}.", origin))
    avoid = _told(scope, hazard.avoid)
    if hazard.avoid is None and hazard.word != "notice":
        avoid = capital(scope.untold("how to avoid it is not told yet", hazard.at))
    worn = worn_links(scope.view, map(str, hazard.wear))
    away = tuple(scope.lowered(scope.who(str(who).removesuffix("."))) for who in hazard.away)
    return Peril(_what(scope, hazard), _told(scope, hazard.harm), avoid, worn, away,
                 barred_words(scope, hazard.age), tuple(tail), scope.only(hazard))


def _brief_peril(scope: ProcedureScope, hazard: Hazard) -> Peril:
    brief = hazard.brief
    harm = brief.harm if brief is not None and brief.harm is not None else hazard.harm
    avoid = brief.avoid if brief is not None and brief.avoid is not None else hazard.avoid
    told = peril(scope, hazard.with_changes(harm=harm, avoid=avoid))
    at = next((step for step in all_steps(scope.own) if any(one is hazard for one in step.hazards)), None)
    shown = say("At {}.", scope.step_link(at)) if at is not None else told.avoid
    return Peril(told.what, told.harm, shown, (), told.away, told.age, only=told.only)


def signals(scope: Scope, hazards: Iterable[Hazard]) -> tuple[Signal, ...]:
    """Hazards in full, those of one signal word in one frame, gravest first."""
    frames: dict[str, list[Peril]] = {word: [] for word in (*WORD_ORDER, UNGRADED)}
    for hazard in hazards:
        frames[str(hazard.word) if hazard.word is not None else UNGRADED].append(peril(scope, hazard))
    return tuple(Signal(word=word, perils=tuple(found)) for word, found in frames.items() if found)


def _sheets(scope: ProcedureScope) -> tuple[Prose, ...]:
    lines = []
    for use in material_uses(scope.nb, scope.own):
        material = scope.nb.materials.get(str(use.material))
        if material is not None and material.sheet is not None:
            dated = f", {date_words(material.sheet.date)}" if material.sheet.date is not None else ""
            named = scope.view.link("material", str(use.material))
            lines.append(say("{}: {}{}", named, scope.words(material.sheet.title), dated))
    return tuple(lines)
