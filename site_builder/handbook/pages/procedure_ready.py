"""Lay ready: tools, materials, what to feel beside, the room, and what to look at first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import dated_day
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import check_lines
from site_builder.handbook.pages.procedure_limits import condition, gauge, is_simple
from site_builder.handbook.pages.procedure_remedies import pictures
from site_builder.handbook.pages.procedure_signs import stage_words, told
from site_builder.handbook.pages.procedure_values import amount, limit_worth
from site_builder.handbook.pages.procedure_view import ProcedureView, meant
from site_builder.handbook.pages.procedure_views import Block, Item, Said
from site_builder.handbook.theme import token
from site_builder.notebook.due import keeps_until, next_due
from site_builder.notebook.gather import tool_uses, works
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.small import Calibration, MaterialUse, ToolUse
from site_builder.notebook.model.things import Machine, Material, Protection, Sample, Thing


@dataclass(frozen=True, slots=True)
class Ready:
    """The section."""

    groups: tuple[tuple[str, tuple[Markup, ...]], ...]
    blocks: tuple[Block, ...]
    looks: tuple[Item, ...]


def lay_ready(view: ProcedureView) -> Ready | None:
    """Everything that is needed before the first move, for the steps and for the shared work as well."""
    tools, samples = _tools(view)
    room, blocks = _conditions(view)
    named = (("Tools", tools), ("Materials", _materials(view)), ("To compare with", samples),
             ("Around the work", room))
    groups = tuple((title, tuple(items)) for title, items in named if items)
    if view.own.load:
        words = in_words.joined_sentences([told(view, limit) for limit in view.own.load])
        blocks = [Said(label="In one load", words=words), *blocks]
    looks = ready_items(view, view.own.ready, None)
    return Ready(groups, tuple(blocks), looks) if groups or blocks or looks else None


def _tools(view: ProcedureView) -> tuple[list[Markup], list[Markup]]:
    tools: list[Markup] = []
    samples: list[Markup] = []
    for use in tool_uses(view.nb, view.own):
        thing = view.nb.tools.get(str(use.tool))
        if isinstance(thing, Protection):
            continue
        line = _aside(use_words(view, use), lasting(view, thing))
        (samples if isinstance(thing, Sample) else tools).append(line)
    return tools, samples


def _materials(view: ProcedureView) -> list[Markup]:
    """Each material once, with every amount that is told for it."""
    found: dict[str, list[MaterialUse]] = {}
    for work in works(view.nb, view.own):
        for use in work.materials:
            found.setdefault(str(use.material), []).append(use)
    lines = []
    for id_, uses in found.items():
        if len(uses) == 1:
            line = use_words(view, uses[0])
        else:
            amounts = dict.fromkeys(amount(view, use.amount) for use in uses if use.amount is not None)
            line = Markup(", ").join([*view.things([id_]), *([in_words.listed(amounts)] if amounts else [])])
        lines.append(_aside(line, lasting(view, view.nb.materials.get(id_))))
    return lines


def lasting(view: ProcedureView, thing: Thing | None) -> list[Markup]:
    """How long a tool or a material is still good for; what a machine needs in years stands on its own page."""
    if thing is None or isinstance(thing, Machine):
        return []
    said = [filled("Lasts until {}", stage_words(view, end, None)) for end in thing.life]
    kept = keeps_until(thing) if isinstance(thing, Material) else None
    if isinstance(thing, Material) and thing.opened is not None and kept is not None:
        said.append(filled("Opened {}; good until {}.", view.context.date(thing.opened), dated_day(kept[0])))
    for name in ("pot life",) if kept is not None else ("shelf life", "shelf life after opening", "pot life"):
        for key, limits in thing.properties.items():
            said += [filled("{} {}.", in_words.capital(name), limit_worth(view, limit).inline)
                     for limit in limits if key == name]
    if thing.calibration is not None:
        said.append(_in_date(view, thing.calibration))
    return said


def _in_date(view: ProcedureView, calibration: Calibration) -> Markup:
    """Until when a gauge may be believed; where no calendar can tell, how often it is checked."""
    due = next_due(calibration.date, calibration.when)
    if due is not None:
        return filled("In date until {}.", dated_day(due))
    when = view.cadence(calibration.when) if calibration.when is not None else \
        view.untold("how often is not told yet", calibration.at)
    last = f", last on {view.context.date(calibration.date)}" if calibration.date is not None else ""
    return filled("Its reading is checked {}{}.", when, last)


def _aside(line: Markup, extra: list[Markup]) -> Markup:
    if not any(extra):
        return line
    return filled('{} <span class="bl-aside">{}</span>', line, Markup(" ").join(e for e in extra if e))


def use_words(view: ProcedureView, use: ToolUse | MaterialUse) -> Markup:
    """``White spirit, about 3 mL per piece, or alcohol; not petrol``, with its note."""
    id_ = str(use.tool if isinstance(use, ToolUse) else use.material)
    said = view.things([id_])[0]
    if use.amount is not None:
        said = filled("{}, {}", said, amount(view, use.amount))
    elif "amount" in use.asked:
        said = filled("{}, {}", said, view.untold("how much is not told yet", use.at))
    if use.or_:
        said = filled("{}, or {}", said, in_words.listed(view.things(map(str, use.or_)), "or"))
    if use.not_:
        said = filled("{}; not {}", said, in_words.listed(view.things(map(str, use.not_)), "nor"))
    extra = [view.inline_why(use), *view.tail(use, told=("because", "amount"))]
    return meant(view.only(use), _aside(said, extra))


def uses_line(view: ProcedureView, work: Work) -> list[Block]:
    """The tools and materials that a step names itself."""
    blocks: list[Block] = []
    if work.tools:
        blocks.append(Said(label="With", words=in_words.listed(use_words(view, use) for use in work.tools)))
    if work.materials:
        blocks.append(Said(label="Take", words=in_words.listed(use_words(view, use) for use in work.materials)))
    return blocks


def _conditions(view: ProcedureView) -> tuple[list[Markup], list[Block]]:
    """Plain conditions as a list; those that are watched and acted upon on gauge lines."""
    plain: list[Markup] = []
    blocks: list[Block] = []
    for name, limits in view.own.conditions.items():
        for nth, limit in enumerate(limits):
            if is_simple(limit):
                plain.append(condition(view, name, limit))
            else:
                suffix = f"-{nth + 1}" if nth else ""
                blocks += gauge(view, str(name), limit, None, f"whole-{token(str(name))}{suffix}")
    return plain, blocks


def ready_items(view: ProcedureView, checks: Sequence[Check], here: Step | None) -> tuple[Item, ...]:
    """What is looked at before the first move, each with what to do if it is not so."""
    return tuple(_look(view, check, here) for check in checks)


def _look(view: ProcedureView, check: Check, here: Step | None) -> Item:
    good = view.words(check.good) if check.good is not None else \
        in_words.capital(view.untold("what good is like is not told yet", check.at))
    bare = check.with_changes(good=None, because=(), note=None, source=None, asked=frozenset())
    lines = [*check_lines(view, bare, here), *view.tail(check, told=("because", "good"))]
    shown = pictures(view, check.pictures)
    return Item(words=good, reasons=view.reasons(check), only=view.only(check), tail=tuple(lines),
                blocks=(shown,) if shown is not None else ())
