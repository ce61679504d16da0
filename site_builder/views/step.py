"""The steps: each with everything that hangs on it, in the order in which hands need it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.references import all_steps
from site_builder.quantity.cadence import At
from site_builder.views.blocks import (
    Block,
    Item,
    Meanwhile,
    NeverBlock,
    Points,
    Questions,
    Said,
    Signal,
    StepView,
    UsedWork,
)
from site_builder.views.check import finds, looks
from site_builder.views.danger_cards import used_signals
from site_builder.views.facts import time_words, work_facts
from site_builder.views.hazard import signals
from site_builder.views.keep import written
from site_builder.views.limit import named
from site_builder.views.limit_in_words import value_in_words
from site_builder.views.loop import loop
from site_builder.views.never import nevers_by_step, step_nevers
from site_builder.views.picture import pictures, point_pictures
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    capital,
    joined,
    listed,
    lowered,
    prose,
    say,
    sentence,
    sentences,
    toned,
)
from site_builder.views.ready import ready_items, uses_line
from site_builder.views.remedy import exemption
from site_builder.views.scope import ProcedureScope
from site_builder.views.setting import settings
from site_builder.views.stop import ends, until
from site_builder.views.trouble import at_step
from site_builder.views.window import waits, windows


def steps(scope: ProcedureScope) -> tuple[StepView, ...]:
    """All steps in order."""
    nevers = nevers_by_step(scope)
    return tuple(_step(scope, number, step, nevers.get(id(step))) for number, step in enumerate(scope.own.steps, 1))


def _step(scope: ProcedureScope, number: int, step: Step, never: NeverBlock | None) -> StepView:
    return StepView(
        never=never, brings=_brings(scope, step),
        anchor=scope.view.anchor(step), number=number, do=_do(scope, step), only=scope.only(step),
        when=tuple(_when(scope, step)), reasons=scope.reasons(step),
        first=(*signals(scope, step.hazards), *step_nevers(scope, step)),
        blocks=tuple(_below(scope, step)),
    )


def _brings(scope: ProcedureScope, step: Step) -> tuple[Signal, ...]:
    used = scope.nb.procedures.get(str(step.use)) if step.use is not None else None
    return used_signals(scope, used) if used is not None and used is not scope.own else ()


def _do(scope: ProcedureScope, step: Step) -> Prose:
    if step.do is not None:
        return scope.words(step.do)
    if step.use is not None:
        return scope.view.link("procedure", str(step.use))
    return scope.untold("what to do is not told yet", step.at)


def _when(scope: ProcedureScope, step: Step) -> list[Prose]:
    """Above the sentence: for whom, when, for how much at once, when not."""
    lines: list[Prose] = []
    only = scope.only(step)
    if only.words:
        lines.append(only.words)
    if step.when is not None:
        lines.append(capital(scope.cadence(step.when)))
    elif "when" in step.asked:
        lines.append(capital(scope.untold("when is not told yet", step.at)))
    if step.per is not None and step.per != "piece":
        lines.append(prose("The whole lot before the next step") if step.per == "lot" else
                     say("Each {} before the next step", scope.words(step.per)))
    for after in step.after:
        said = say("Only after {}", scope.moment(after.done))
        why = scope.inline_why(after)
        told = say("{}, {}", said, why) if why else said
        lines.append(scope.meant(after, sentences([told, *scope.tail(after)])))
    if step.unless is not None:
        lines.append(exemption(scope, step.unless, "Left out if"))
    return lines


def _below(scope: ProcedureScope, step: Step) -> list[Block]:
    blocks: list[Block] = []
    if step.use is not None and str(step.use) in scope.nb.procedures:
        blocks.append(_uses(scope, scope.nb.procedures[str(step.use)], step))
    blocks += said_lines(scope.tail(step, told=("because", "do", "when")))
    blocks += work_blocks(scope, step, step)
    return blocks


def work_blocks(scope: ProcedureScope, work: Work, here: Step | None) -> list[Block]:
    """What hangs on a step, or on an act within it, in the order of doing."""
    blocks: list[Block] = points(scope, work.points)
    blocks += uses_line(scope, work)
    looked = ready_items(scope, work.ready, here)
    blocks += [Points(items=tuple(_first_look(item) for item in looked), looks=True)] if looked else []
    blocks += named(scope, work.conditions, here)
    blocks += settings(scope, work.settings, here)
    blocks += [Said(label=label, words=words) for label, words in work_facts(scope, work, here)]
    blocks += meanwhile(scope, work.also)
    blocks += _optional(pictures(scope, work.pictures))
    blocks += judged(scope, work, here)
    blocks += written(scope, work)
    blocks += at_step(scope, work)
    blocks += asked(scope, work)
    return blocks


def _first_look(item: Item) -> Item:
    return replace(item, words=say("First see: {}", item.words))


def judged(scope: ProcedureScope, work: Work, here: Step | None) -> list[Block]:
    """How one knows that it is good and when it is done; how long it may stand."""
    blocks = named(scope, work.limits, here)
    blocks += looks(scope, work, here)
    blocks += finds(scope, work)
    blocks += _optional(ends(scope, work.until, here, "Done when" if here is not None else "You are done when"))
    blocks += _optional(loop(scope, work.repeat, here))
    blocks += windows(scope, work.windows, here)
    blocks += waits(scope, work.wait, here)
    if isinstance(work, Step) and work.then is not None:
        blocks.append(Said(label="Then", words=capital(scope.route(str(work.then), here))))
    return blocks


def _optional(block: Block | None) -> list[Block]:
    return [block] if block is not None else []


def points(scope: ProcedureScope, found: Iterable[Point]) -> list[Block]:
    """Key points with their reasons, their pictures below."""
    listed = tuple(found)
    items = tuple(
        Item(words=scope.words(p.point), reasons=scope.reasons(p), only=scope.only(p), tail=scope.tail(p))
        for p in listed
    )
    return [*([Points(items=items)] if items else []), *_optional(point_pictures(scope, listed))]


def meanwhile(scope: ProcedureScope, acts: Iterable[Step]) -> list[Block]:
    """What is done within the work, each with its rhythm; an act is a step and may carry what a step carries."""
    items = []
    for act in acts:
        when = capital(scope.cadence(act.when)) if act.when is not None else \
            capital(scope.untold("when is not told yet", act.at))
        bare = act.with_changes(when=None, for_=())
        inner: list[Block] = [*signals(scope, act.hazards), *step_nevers(scope, act)]
        if act.use is not None and act.do is not None and str(act.use) in scope.nb.procedures:
            inner.append(_uses(scope, scope.nb.procedures[str(act.use)], act))
        inner += work_blocks(scope, act, act)
        tail = (*_when(scope, bare), *scope.tail(act, told=("because", "do", "when")))
        anchor = scope.view.anchor(act)  # of an act of the whole work only if it has an id
        items.append(Item(lead=when, words=_do(scope, act), reasons=scope.reasons(act), only=scope.only(act),
                          anchor="" if anchor == "steps" or scope.apart else anchor, tail=tail, blocks=tuple(inner)))
    return [Meanwhile(items=tuple(items))] if items else []


def _uses(scope: ProcedureScope, used: Procedure, step: Step) -> UsedWork:
    """Shared work: its steps in short, and what it brings along."""
    id_ = str(used.procedure)
    lines = [_in_short(scope, one) for one in used.steps if not is_last(one)]
    brings = [say("Skill: {}.", listed(scope.view.link("skill", str(s)) for s in skills_of(used)))] \
        if skills_of(used) else []
    brings += [line for line in (_set(scope, used), _over(scope, used)) if line]
    brings += [say("Time: {}", sentence(lowered(time_words(scope, t)))) for t in used.time]
    if any((step.settings, step.limits, step.conditions)):
        brings.append(prose("Figures that stand here go before those of the same name there."))
    lead = prose("In short:") if step.do is None else \
        say("As told at {}, in short:", scope.view.link("procedure", id_))
    bare = [time.with_changes(source=None, date=None, note=None, because=()) for time in used.time]
    takes = joined((lowered(time_words(scope, time)) for time in bare), "; ")
    return UsedWork(lead=lead, steps=tuple(lines), brings=tuple(brings), count=len(used.steps), takes=takes)


def is_last(step: Step) -> bool:
    """Whether a step of shared work is done when all is over: "at the end"."""
    when = step.when
    return isinstance(when, ParsedValue) and isinstance(when.value, At) and when.value.which == "end"


def at_the_end(scope: ProcedureScope) -> tuple[Prose, ...]:
    """What shared work leaves to be done when all is over, with its place there."""
    found: dict[Prose, None] = {}
    for own in all_steps(scope.own):
        used = scope.nb.procedures.get(str(own.use)) if own.use is not None else None
        for one in used.steps if used is not None else ():
            if used is not None and is_last(one):
                there = scope.view.link("procedure", str(own.use), anchor=scope.view.anchor(one))
                found[say("{} {}", _in_short(scope, one, marked=False), toned("at", there))] = None
    return tuple(found)


def _in_short(scope: ProcedureScope, step: Step, *, marked: bool = True) -> Prose:
    """A step of shared work in one line, with all that says when it is not done, or not now."""
    do = scope.words(step.do) if step.do is not None else \
        prose(scope.view.title("procedure", str(step.use)))
    marks = [say("{}:", capital(scope.cadence(step.when)))] if step.when is not None and marked else []
    marks += [say("Only after {}:", scope.moment(one.done)) for one in step.after]
    unless = exemption(scope, step.unless, "Left out if") if step.unless is not None else NO_WORDS
    return scope.meant(step, joined((toned("emphasis", joined(marks)) if marks else NO_WORDS, sentence(do),
                                     _set(scope, step), _over(scope, step), unless)))


def _over(scope: ProcedureScope, work: Work) -> Prose:
    """When a step of shared work, or all of it, is done."""
    stages = until(scope, work.until, None)
    return toned("aside", sentence(say("Done when {}", stages))) if stages else NO_WORDS


def _set(scope: ProcedureScope, step: Work) -> Prose:
    """What is set, held and kept to at a step of shared work: nobody should have to look it up."""
    groups = (step.conditions, step.settings, step.limits)
    figures = [scope.meant(limit, say("{} {}", name, value_in_words(scope, limit)))
               for group in groups for name, limits in group.items() for limit in limits]
    return toned("aside", sentences(figures))


def asked(scope: ProcedureScope, work: Work) -> list[Block]:
    """What is still to be asked."""
    items = tuple(
        say("{} {}", scope.untold("still to be asked", q.at), scope.words(q))
        for q in work.questions
    )
    return [Questions(items=items)] if items else []


def said_lines(lines: Iterable[Prose]) -> list[Block]:
    """Notes and sources of a step."""
    return [Said(label="", words=line) for line in lines]


def whole(scope: ProcedureScope) -> list[Block]:
    """What holds all the way through: points, settings, acts in between."""
    own = scope.own
    blocks = points(scope, own.points)
    blocks += settings(scope, own.settings, None)
    blocks += meanwhile(scope, own.also)
    blocks += _optional(pictures(scope, own.pictures))
    return blocks
