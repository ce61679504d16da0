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
from site_builder.handbook.pages.procedure_scribe import Scribe
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


def stay_whole(scribe: Scribe) -> Whole | None:
    """Everything gathered from the work, its tools and materials, and the shared work it uses."""
    signals = _signals(scribe)
    nevers = _nevers(scribe)
    never = Never(items=nevers) if nevers else None
    wear = tuple((in_words.capital(when), in_words.capital(what)) for when, what in worn_cases(scribe.pen, scribe.own))
    sheets = _sheets(scribe)
    return Whole(signals, never, wear, sheets) if signals or never or wear or sheets else None


def _signals(scribe: Scribe) -> tuple[Signal, ...]:
    homes = _homes(scribe)
    frames: dict[str, dict[tuple[str, str], Peril]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
    for gathered in hazards_of(scribe.nb, scribe.own):
        hazard = gathered.item
        if not isinstance(hazard, Hazard):
            continue
        key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
        frame = frames[str(hazard.word) if hazard.word is not None else UNGRADED]
        if key in frame:
            continue
        home = homes.get(id(hazard))
        if home is not None:
            frame[key] = Peril(_what(scribe, hazard), _told(scribe, hazard.harm), home,
                               age=barred_words(scribe.pen, hazard.age), only=scribe.only(hazard))
        else:
            origin = _origin(scribe, gathered.origin, gathered.origin_id)
            frame[key] = peril(scribe, hazard, origin)
    return tuple(Signal(word=word, perils=tuple(found.values())) for word, found in frames.items() if found)


def _homes(scribe: Scribe) -> dict[int, Markup]:
    """Hazards special to a step stand there in full; here a line leads to them, for own and for used work."""
    homes: dict[int, Markup] = {}
    for step in all_steps(scribe.own):
        for hazard in step.hazards:
            lead = "How to avoid it stands at {}." if hazard.avoid is not None else "At {}."
            homes[id(hazard)] = filled(lead, scribe.step_link(step))
    for used in used_procedures(scribe.nb, scribe.own):
        for step in all_steps(used):
            for hazard in step.hazards:
                title = scribe.pen.title("procedure", str(used.procedure))
                shown = f"{title}, {scribe.book.step_name(used, step)}"
                link = scribe.pen.link("procedure", str(used.procedure), shown, scribe.book.anchor(step))
                avoid = in_words.sentence(scribe.words(hazard.avoid)) if hazard.avoid is not None else NO_WORDS
                homes[id(hazard)] = filled("{} More at {}.", avoid, link)
    return homes


def _origin(scribe: Scribe, origin: object, origin_id: str) -> Markup:
    if isinstance(origin, Thing):
        return scribe.pen.link("material" if isinstance(origin, Material) else "tool", origin_id)
    if isinstance(origin, Procedure) and origin is not scribe.own:
        return scribe.pen.link("procedure", origin_id)
    return NO_WORDS


def _what(scribe: Scribe, hazard: Hazard) -> Markup:
    return name_of_harm(scribe.words(hazard.hazard))


def _told(scribe: Scribe, text: str | None) -> Markup:
    return in_words.capital(in_words.sentence(scribe.words(text)))


def peril(scribe: Scribe, hazard: Hazard, origin: Markup = NO_WORDS) -> Peril:
    """One hazard in full."""
    tail = [*scribe.tail(hazard, told=("because", "avoid", "word"))]
    if hazard.because:
        tail.insert(0, in_words.capital(scribe.inline_why(hazard)))
    if origin:
        tail.append(filled("With {}.", origin))
    avoid = _told(scribe, hazard.avoid)
    if hazard.avoid is None and hazard.word != "notice":
        avoid = in_words.capital(scribe.untold("how to avoid it is not told yet", hazard.at))
    worn = worn_links(scribe.pen, map(str, hazard.wear))
    away = tuple(in_words.lowered(scribe.who(str(who).removesuffix(".")), scribe.common.proper) for who in hazard.away)
    return Peril(_what(scribe, hazard), _told(scribe, hazard.harm), avoid, worn, away,
                 barred_words(scribe.pen, hazard.age), tuple(tail), scribe.only(hazard))


def step_signals(scribe: Scribe, hazards: Iterable[Hazard], *, notices: bool) -> list[Signal]:
    """Hazards special to a step: to people before the deed, to the work after it."""
    frames: dict[str, list[Peril]] = {word: [] for word in (*WORD_ORDER, UNGRADED)}
    for hazard in hazards:
        if (hazard.word == "notice") == notices:
            frames[str(hazard.word) if hazard.word is not None else UNGRADED].append(peril(scribe, hazard))
    return [Signal(word=word, perils=tuple(found)) for word, found in frames.items() if found]


def _nevers(scribe: Scribe) -> tuple[Item, ...]:
    found: dict[str, Item] = {}
    for gathered in nevers_of(scribe.nb, scribe.own):
        if isinstance(gathered.item, Forbidden):
            origin = _origin(scribe, gathered.origin, gathered.origin_id)
            found.setdefault(str(gathered.item.do).lower(), _never(scribe, gathered.item, origin))
    return tuple(found.values())


def _never(scribe: Scribe, entry: Forbidden, origin: Markup = NO_WORDS) -> Item:
    """``Never grind steel on this belt.``, with its reason."""
    words = filled("Never {}", in_words.lowered(scribe.words(entry.do), scribe.common.proper))
    reason = Markup(" ").join(in_words.capital(in_words.sentence(scribe.words(r))) for r in entry.because)
    tail = [reason] if reason else []
    if not entry.because:
        tail.append(in_words.capital(scribe.untold("why is not told yet", entry.at)))
    if entry.unless is not None:
        tail.append(exemption(scribe, entry.unless))
    tail += scribe.tail(entry)
    if origin:
        tail.append(filled("With {}.", origin))
    return Item(words=in_words.sentence(words), tail=tuple(tail), only=scribe.only(entry))


def step_nevers(scribe: Scribe, step: Step) -> list[Never]:
    """What is forbidden at a step."""
    items = tuple(_never(scribe, entry) for entry in step.never)
    return [Never(items=items)] if items else []


def _sheets(scribe: Scribe) -> tuple[Markup, ...]:
    lines = []
    for use in material_uses(scribe.nb, scribe.own):
        material = scribe.nb.materials.get(str(use.material))
        if material is not None and material.sheet is not None:
            dated = f", {scribe.pen.date(material.sheet.date)}" if material.sheet.date is not None else ""
            named = scribe.pen.link("material", str(use.material))
            lines.append(filled("{}: {}{}", named, scribe.words(material.sheet.title), dated))
    return tuple(lines)
