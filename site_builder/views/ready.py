"""Lay ready: tools, materials, what to feel beside, the room, and what to look at first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.notebook.due import keeps_until, next_due
from site_builder.notebook.gather import tool_uses, works
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Machine, Material, Protection, Sample, Thing
from site_builder.notebook.shares import amount_in_figures
from site_builder.quantity import for_people, spelt
from site_builder.quantity.portion import share_named
from site_builder.views.anchors import token
from site_builder.views.blocks import Block, Gauge, Item, Said
from site_builder.views.calibration import due_words, in_date
from site_builder.views.check import check_lines, grades
from site_builder.views.dates import date_words, dated_day
from site_builder.views.end import stage_words
from site_builder.views.limit import gauge
from site_builder.views.limit_in_words import told
from site_builder.views.picture import pictures
from site_builder.views.prose import (
    NO_WORDS,
    Only,
    Prose,
    capital,
    joined,
    linked,
    listed,
    lowered,
    meant,
    say,
    sentence,
    sentences,
    toned,
)
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.setting import condition, is_simple
from site_builder.views.value import amount, limit_value


@dataclass(frozen=True, slots=True)
class Ready:
    """The section."""

    groups: tuple[tuple[str, tuple[Prose, ...]], ...]
    blocks: tuple[Block, ...]
    looks: tuple[Item, ...]
    kit: tuple[tuple[str, tuple[Prose, ...]], ...] = ()
    """The same groups, each thing without how long it is still good for."""
    besides: tuple[Prose, ...] = ()
    """How long each is still good for."""
    watched: tuple[Item, ...] = ()
    """The conditions that are watched and acted upon, each leading to its gauge line."""
    few: str = ""
    """What stands there in a few words, with the dates that are near."""


SOON = 30
"""Days before which a date is told at once."""


def lay_ready(scope: ProcedureScope) -> Ready | None:
    """Everything that is needed before the first move, for the steps and for the shared work as well."""
    tools, samples = _tools(scope)
    room, blocks = _conditions(scope)
    named = (("Tools", tools), ("Materials", _materials(scope)), ("To compare with", samples),
             ("Around the work", [(line, (), line) for line in room]))
    groups = tuple((title, tuple(_aside(line, lasts) for line, lasts, _ in items)) for title, items in named if items)
    kit = tuple((title, tuple(line for line, _, _ in items)) for title, items in named if items)
    besides = tuple(say("{}: {}", name, joined(lasts)) for _, items in named for _, lasts, name in items if lasts)
    if scope.own.load:
        words = sentences([told(scope, limit) for limit in scope.own.load])
        blocks = [Said(label="In one load", words=words), *blocks]
    looks = ready_items(scope, scope.own.ready, None)
    few = _few(scope, kit)
    watched = tuple(_watched(scope, block) for block in blocks if isinstance(block, Gauge))
    return Ready(groups, tuple(blocks), looks, kit, besides, watched, few) if groups or blocks or looks else None


def _watched(scope: ProcedureScope, line: Gauge) -> Item:
    to = linked(line.what.plain, scope.here(line.anchor))
    return Item(words=say("{} {}", to, toned("strong", line.value)), only=line.only)


_COUNTED = {"Tools": ("tool", "tools"), "Materials": ("material", "materials"),
            "To compare with": ("piece to compare with", "pieces to compare with")}


def _few(scope: ProcedureScope, kit: Sequence[tuple[str, Sequence[Prose]]]) -> str:
    """``6 tools, 1 material; height gauge due on 5 December 2026``."""
    counted = [f"{len(items)} {_COUNTED[title][len(items) > 1]}" for title, items in kit if title in _COUNTED]
    due = []
    for use in tool_uses(scope.nb, scope.own):
        thing = scope.nb.tools.get(str(use.tool))
        day = next_due(thing.calibration.date, thing.calibration.when) \
            if thing is not None and thing.calibration is not None else None
        if thing is not None and thing.calibration is not None and day is not None \
                and (day - scope.view.analysis.today).days <= SOON:
            due.append(f"{lowered(scope.view.title('tool', str(use.tool))).plain} "
                       f"{due_words(scope, thing.calibration)}")
    return "; ".join(filter(None, (", ".join(counted), *due)))


_Line = tuple[Prose, Sequence[Prose], Prose]
"""A thing as it is used, how long it is still good for, and its name."""


def _tools(scope: ProcedureScope) -> tuple[list[_Line], list[_Line]]:
    tools: list[_Line] = []
    samples: list[_Line] = []
    for use in tool_uses(scope.nb, scope.own):
        thing = scope.nb.tools.get(str(use.tool))
        if isinstance(thing, Protection):
            continue
        line = (use_words(scope, use), lasting(scope, thing), scope.things([str(use.tool)])[0])
        (samples if isinstance(thing, Sample) else tools).append(line)
    return tools, samples


def _materials(scope: ProcedureScope) -> list[_Line]:
    """Each material once, with every amount that is told for it."""
    found: dict[str, list[MaterialUse]] = {}
    for work in works(scope.nb, scope.own):
        for use in work.materials:
            found.setdefault(str(use.material), []).append(use)
    lines: list[_Line] = []
    for id_, uses in found.items():
        line = use_words(scope, uses[0]) if len(uses) == 1 else _several(scope, id_, uses)
        lines.append((line, lasting(scope, scope.nb.materials.get(id_)), scope.things([id_])[0]))
    return lines


def _several(scope: Scope, id_: str, uses: Sequence[MaterialUse]) -> Prose:
    """A material with several amounts; what is said besides of all of them alike stands once."""
    beside = {_beside(scope, use) for use in uses}
    alike = beside.pop() if len(beside) == 1 else ()
    details = dict.fromkeys(filter(None, (_details(scope, use, () if alike else _beside(scope, use)) for use in uses)))
    several = NO_WORDS
    for one in details:  # after a note, which ends in a full stop, a new sentence begins
        several = joined((several, capital(one))) if several.plain.endswith(".") else joined((several, one), "; ")
    return _aside(joined((scope.things([id_])[0], several), ", "), alike)


def lasting(scope: Scope, thing: Thing | None) -> list[Prose]:
    """How long a tool or a material is still good for; what a machine needs in years stands on its own page."""
    if thing is None or isinstance(thing, Machine):
        return []
    said = [say("Lasts until {}", stage_words(scope, end, None)) for end in thing.life]
    kept = keeps_until(thing) if isinstance(thing, Material) else None
    if isinstance(thing, Material) and thing.opened is not None and kept is not None:
        said.append(say("Opened {}; good until {}.", date_words(thing.opened), dated_day(kept[0])))
    for name in ("pot life",) if kept is not None else ("shelf life", "shelf life after opening", "pot life"):
        for key, limits in thing.properties.items():
            said += [say("{} {}.", capital(name), limit_value(scope, limit).inline)
                     for limit in limits if key == name]
    if thing.calibration is not None:
        said.append(in_date(scope, thing.calibration))
    return said


def _aside(line: Prose, extra: Sequence[Prose]) -> Prose:
    if not any(extra):
        return line
    return say("{} {}", line, toned("aside", joined(extra)))


def _share(scope: Scope, use: ToolUse | MaterialUse) -> str:
    """In figures what is written as a share of another amount; empty for all others."""
    own = scope.own
    if isinstance(use, ToolUse) or use.amount is None or share_named(use.amount.value) is None:
        return ""
    figures = amount_in_figures(scope.nb, own, use) if isinstance(own, Procedure) else None
    return f"= {spelt(for_people(figures, scope.view.system).main)}" if figures is not None else ""


def use_words(scope: Scope, use: ToolUse | MaterialUse) -> Prose:
    """``White spirit, about 3 mL per piece, or alcohol; not petrol``, with its note."""
    return meant(scope.only(use), _details(scope, use, _beside(scope, use), named=True))


def _beside(scope: Scope, use: ToolUse | MaterialUse) -> tuple[Prose, ...]:
    lines = (scope.inline_why(use), *scope.tail(use, told=("because", "amount")))
    return tuple(sentence(line) for line in lines if line)


def _details(
    scope: Scope, use: ToolUse | MaterialUse, extra: Sequence[Prose], *, named: bool = False
) -> Prose:
    """How much and why, then what does instead and what does not: a reason stands at what it is the reason of.

    Without the name: one of several amounts of a material, which says for whom (``2 lb for the spring season``).
    """
    parts = [*scope.things([str(use.tool if isinstance(use, ToolUse) else use.material)])] if named else []
    if use.amount is not None:
        parts.append(joined((amount(scope, use.amount), toned("other units", _share(scope, use)))))
    elif "amount" in use.asked:
        parts.append(scope.untold("how much is not told yet", use.at))
    only = scope.only(use)
    said = joined(parts, ", ")
    if only.words and not named:
        said = joined((said, only.words.plain.removeprefix("Only ")))
    instead = say("or {}", listed(scope.things(map(str, use.or_)), "or")) if use.or_ else NO_WORDS
    refused = say("not {}", listed(scope.things(map(str, use.not_)), "nor")) if use.not_ else NO_WORDS
    if extra:
        said = joined((_aside(said, extra), sentences((instead, refused))))
    else:
        said = joined((joined((said, instead), ", "), refused), "; ")
    return said if named or not said else meant(Only(NO_WORDS, only.values), said)


def uses_line(scope: Scope, work: Work) -> list[Block]:
    """The tools and materials that a step names itself."""
    blocks: list[Block] = []
    if work.tools:
        blocks.append(Said(label="With", words=listed(use_words(scope, use) for use in work.tools)))
    if work.materials:
        blocks.append(Said(label="Take", words=listed(use_words(scope, use) for use in work.materials)))
    return blocks


def _conditions(scope: ProcedureScope) -> tuple[list[Prose], list[Block]]:
    """Plain conditions as a list; those that are watched and acted upon on gauge lines."""
    plain: list[Prose] = []
    blocks: list[Block] = []
    for name, limits in scope.own.conditions.items():
        for nth, limit in enumerate(limits):
            if is_simple(limit):
                plain.append(condition(scope, name, limit))
            else:
                suffix = f"-{nth + 1}" if nth else ""
                blocks += gauge(scope, str(name), limit, None, f"whole-{token(str(name))}{suffix}")
    return plain, blocks


def ready_items(scope: Scope, checks: Sequence[Check], here: Step | None) -> tuple[Item, ...]:
    """What is looked at before the first move, each with what to do if it is not so."""
    return tuple(_look(scope, check, here) for check in checks)


def _look(scope: Scope, check: Check, here: Step | None) -> Item:
    good = scope.words(check.good) if check.good is not None else \
        capital(scope.untold("what good is like is not told yet", check.at))
    bare = check.with_changes(good=None, because=(), note=None, source=None, asked=frozenset())
    lines = [*check_lines(scope, bare, here), *scope.tail(check, told=("because", "good"))]
    shown = pictures(scope, check.pictures)
    return Item(words=good, reasons=scope.reasons(check), only=scope.only(check), tail=tuple(lines),
                stops=any(remedy.then == "stop" for remedy in check.fails),
                blocks=(*((shown,) if shown is not None else ()), *grades(scope, check)))
