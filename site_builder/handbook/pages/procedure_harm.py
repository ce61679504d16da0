"""First, stay whole: what can hurt, gravest first, each told once; what is forbidden; what to wear."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.ages_told import barred_words
from site_builder.handbook.pages.harms import name_of_harm
from site_builder.handbook.pages.procedure_remedies import exemption
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import NO_WORDS, Item, Never, Peril, Signal
from site_builder.handbook.pages.wear_told import worn_cases, worn_links
from site_builder.notebook.gather import (
    WORD_ORDER,
    hazards_of,
    material_uses,
    nevers_of,
    used_procedures,
)
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.harm import Never as Forbidden
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.things import Material, Thing
from site_builder.notebook.references import all_steps

UNGRADED = "hazard"


@dataclass(frozen=True, slots=True)
class Whole:
    """The section."""

    signals: tuple[Signal, ...]
    never: Never | None
    wear: tuple[tuple[Markup, Markup], ...]
    sheets: tuple[Markup, ...]


def stay_whole(view: ProcedureView) -> Whole | None:
    """Everything gathered from the work, its tools and materials, and the shared work it uses."""
    signals = _signals(view)
    nevers = _nevers(view)
    never = Never(items=nevers) if nevers else None
    wear = tuple((in_words.capital(when), in_words.capital(what)) for when, what in worn_cases(view.context, view.own))
    sheets = _sheets(view)
    return Whole(signals, never, wear, sheets) if signals or never or wear or sheets else None


def _signals(view: ProcedureView) -> tuple[Signal, ...]:
    homes = _homes(view)
    frames: dict[str, dict[tuple[str, str], Peril]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
    for gathered in hazards_of(view.nb, view.own):
        hazard = gathered.item
        if not isinstance(hazard, Hazard):
            continue
        key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
        frame = frames[str(hazard.word) if hazard.word is not None else UNGRADED]
        if key in frame:
            continue
        home = homes.get(id(hazard))
        if home is not None:
            frame[key] = Peril(_what(view, hazard), _told(view, hazard.harm), home,
                               age=barred_words(view.context, hazard.age), only=view.only(hazard))
        else:
            origin = _origin(view, gathered.origin, gathered.origin_id)
            frame[key] = peril(view, hazard, origin)
    return tuple(Signal(word=word, perils=tuple(found.values())) for word, found in frames.items() if found)


def _homes(view: ProcedureView) -> dict[int, Markup]:
    """Hazards special to a step stand there in full; here a line leads to them, for own and for used work."""
    homes: dict[int, Markup] = {}
    for step in all_steps(view.own):
        for hazard in step.hazards:
            lead = "How to avoid it stands at {}." if hazard.avoid is not None else "At {}."
            homes[id(hazard)] = filled(lead, view.step_link(step))
    for used in used_procedures(view.nb, view.own):
        for step in all_steps(used):
            for hazard in step.hazards:
                title = view.context.title("procedure", str(used.procedure))
                shown = f"{title}, {view.book.step_name(used, step)}"
                link = view.context.link("procedure", str(used.procedure), shown, view.book.anchor(step))
                avoid = in_words.sentence(view.words(hazard.avoid)) if hazard.avoid is not None else NO_WORDS
                homes[id(hazard)] = filled("{} More at {}.", avoid, link)
    return homes


def _origin(view: ProcedureView, origin: object, origin_id: str) -> Markup:
    if isinstance(origin, Thing):
        return view.context.link("material" if isinstance(origin, Material) else "tool", origin_id)
    if isinstance(origin, Procedure) and origin is not view.own:
        return view.context.link("procedure", origin_id)
    return NO_WORDS


def _what(view: ProcedureView, hazard: Hazard) -> Markup:
    return name_of_harm(view.words(hazard.hazard))


def _told(view: ProcedureView, text: str | None) -> Markup:
    return in_words.capital(in_words.sentence(view.words(text)))


def peril(view: ProcedureView, hazard: Hazard, origin: Markup = NO_WORDS) -> Peril:
    """One hazard in full."""
    tail = [*view.tail(hazard, told=("because", "avoid", "word"))]
    if hazard.because:
        tail.insert(0, in_words.capital(view.inline_why(hazard)))
    if origin:
        tail.append(filled("With {}.", origin))
    avoid = _told(view, hazard.avoid)
    if hazard.avoid is None and hazard.word != "notice":
        avoid = in_words.capital(view.untold("how to avoid it is not told yet", hazard.at))
    worn = worn_links(view.context, map(str, hazard.wear))
    away = tuple(in_words.lowered(view.who(str(who).removesuffix(".")), view.common.proper) for who in hazard.away)
    return Peril(_what(view, hazard), _told(view, hazard.harm), avoid, worn, away,
                 barred_words(view.context, hazard.age), tuple(tail), view.only(hazard))


def step_signals(view: ProcedureView, hazards: Iterable[Hazard], *, notices: bool) -> list[Signal]:
    """Hazards special to a step: to people before the deed, to the work after it."""
    frames: dict[str, list[Peril]] = {word: [] for word in (*WORD_ORDER, UNGRADED)}
    for hazard in hazards:
        if (hazard.word == "notice") == notices:
            frames[str(hazard.word) if hazard.word is not None else UNGRADED].append(peril(view, hazard))
    return [Signal(word=word, perils=tuple(found)) for word, found in frames.items() if found]


def _nevers(view: ProcedureView) -> tuple[Item, ...]:
    found: dict[str, Item] = {}
    for gathered in nevers_of(view.nb, view.own):
        if isinstance(gathered.item, Forbidden):
            origin = _origin(view, gathered.origin, gathered.origin_id)
            found.setdefault(str(gathered.item.do).lower(), _never(view, gathered.item, origin))
    return tuple(found.values())


def _never(view: ProcedureView, entry: Forbidden, origin: Markup = NO_WORDS) -> Item:
    """``Never grind steel on this belt.``, with its reason."""
    words = filled("Never {}", in_words.lowered(view.words(entry.do), view.common.proper))
    reason = Markup(" ").join(in_words.capital(in_words.sentence(view.words(r))) for r in entry.because)
    tail = [reason] if reason else []
    if not entry.because:
        tail.append(in_words.capital(view.untold("why is not told yet", entry.at)))
    if entry.unless is not None:
        tail.append(exemption(view, entry.unless))
    tail += view.tail(entry)
    if origin:
        tail.append(filled("With {}.", origin))
    return Item(words=in_words.sentence(words), tail=tuple(tail), only=view.only(entry))


def step_nevers(view: ProcedureView, step: Step) -> list[Never]:
    """What is forbidden at a step."""
    items = tuple(_never(view, entry) for entry in step.never)
    return [Never(items=items)] if items else []


def _sheets(view: ProcedureView) -> tuple[Markup, ...]:
    lines = []
    for use in material_uses(view.nb, view.own):
        material = view.nb.materials.get(str(use.material))
        if material is not None and material.sheet is not None:
            dated = f", {view.context.date(material.sheet.date)}" if material.sheet.date is not None else ""
            named = view.context.link("material", str(use.material))
            lines.append(filled("{}: {}{}", named, view.words(material.sheet.title), dated))
    return tuple(lines)
