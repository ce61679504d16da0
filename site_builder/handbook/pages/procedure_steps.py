"""The steps: each with everything that hangs on it, in the order in which hands need it."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.finder import Part
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import finds, looks
from site_builder.handbook.pages.procedure_ends import ends, loop
from site_builder.handbook.pages.procedure_facts import time_words, work_facts
from site_builder.handbook.pages.procedure_harm import step_nevers, step_signals
from site_builder.handbook.pages.procedure_limits import named, settings, waits, windows
from site_builder.handbook.pages.procedure_ready import ready_items, uses_line
from site_builder.handbook.pages.procedure_remedies import exemption, pictures, point_pictures
from site_builder.handbook.pages.procedure_signs import kept
from site_builder.handbook.pages.procedure_troubles import at_step
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import (
    Block,
    Item,
    Meanwhile,
    Points,
    Questions,
    Said,
    StepView,
    Uses,
)
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.procedure import Procedure, Step, Work


def steps(view: ProcedureView) -> tuple[StepView, ...]:
    """All steps in order."""
    return tuple(_step(view, number, step) for number, step in enumerate(view.own.steps, 1))


def _step(view: ProcedureView, number: int, step: Step) -> StepView:
    return StepView(
        anchor=view.book.anchor(step), number=number, do=_do(view, step), only=view.only(step),
        when=tuple(_when(view, step)), reasons=view.reasons(step),
        first=tuple(step_signals(view, step.hazards, notices=False)), blocks=tuple(_below(view, step)),
    )


def _do(view: ProcedureView, step: Step) -> Markup:
    if step.do is not None:
        return view.words(step.do)
    if step.use is not None:
        return view.context.link("procedure", str(step.use))
    return view.untold("what to do is not told yet", step.at)


def _when(view: ProcedureView, step: Step) -> list[Markup]:
    """Above the sentence: for whom, when, for how much at once, when not."""
    lines: list[Markup] = []
    only = view.only(step)
    if only.words:
        lines.append(only.words)
    if step.when is not None:
        lines.append(in_words.capital(view.cadence(step.when)))
    if step.per is not None and step.per != "piece":
        lines.append(Markup("The whole lot before the next step") if step.per == "lot" else
                     filled("Each {} before the next step", view.words(step.per)))
    for after in step.after:
        said = filled("Only after {}", view.moment(after.done))
        why = view.inline_why(after)
        told = filled("{}, {}", said, why) if why else said
        lines.append(view.meant(after, in_words.joined_sentences([told, *view.tail(after)])))
    if step.unless is not None:
        lines.append(exemption(view, step.unless, "Left out if"))
    return lines


def _below(view: ProcedureView, step: Step) -> list[Block]:
    blocks: list[Block] = []
    if step.use is not None and str(step.use) in view.nb.procedures:
        blocks.append(_uses(view, view.nb.procedures[str(step.use)], step))
    blocks += said_lines(view.tail(step, told=("because", "do", "when")))
    blocks += work_blocks(view, step, step)
    return blocks


def work_blocks(view: ProcedureView, work: Work, here: Step | None) -> list[Block]:
    """What hangs on a step, or on an act within it, in the order of doing."""
    blocks: list[Block] = points(view, work.points)
    blocks += uses_line(view, work)
    looked = ready_items(view, work.ready, here)
    blocks += [Points(items=tuple(_first_look(item) for item in looked))] if looked else []
    blocks += named(view, work.conditions, here)
    blocks += settings(view, work.settings, here)
    blocks += [Said(label=label, words=words) for label, words in work_facts(view, work, here)]
    blocks += meanwhile(view, work.also)
    blocks += step_nevers(view, work) if isinstance(work, Step) else []
    blocks += _optional(pictures(view, work.pictures))
    blocks += judged(view, work, here)
    blocks += step_signals(view, work.hazards, notices=True) if isinstance(work, Step) else []
    blocks += written(view, work)
    blocks += at_step(view, work)
    blocks += asked(view, work)
    return blocks


def _first_look(item: Item) -> Item:
    return Item(words=filled("First see: {}", item.words), reasons=item.reasons, only=item.only,
                tail=item.tail, blocks=item.blocks)


def judged(view: ProcedureView, work: Work, here: Step | None) -> list[Block]:
    """How one knows that it is good and when it is done; how long it may stand."""
    blocks = named(view, work.limits, here)
    blocks += looks(view, work, here)
    blocks += finds(view, work)
    blocks += _optional(ends(view, work.until, here, "Done when" if here is not None else "You are done when"))
    blocks += _optional(loop(view, work.repeat, here))
    blocks += windows(view, work.windows, here)
    blocks += waits(view, work.wait, here)
    return blocks


def _optional(block: Block | None) -> list[Block]:
    return [block] if block is not None else []


def points(view: ProcedureView, found: Iterable[Point]) -> list[Block]:
    """Key points with their reasons, their pictures below."""
    listed = tuple(found)
    items = tuple(
        Item(words=view.words(p.point), reasons=view.reasons(p), only=view.only(p), tail=view.tail(p))
        for p in listed
    )
    return [*([Points(items=items)] if items else []), *_optional(point_pictures(view, listed))]


def meanwhile(view: ProcedureView, acts: Iterable[Step]) -> list[Block]:
    """What is done within the work, each with its rhythm; an act is a step and may carry what a step carries."""
    items = []
    for act in acts:
        when = in_words.capital(view.cadence(act.when)) if act.when is not None else \
            in_words.capital(view.untold("when is not told yet", act.at))
        bare = act.with_changes(when=None, for_=())
        inner: list[Block] = [*step_signals(view, act.hazards, notices=False)]
        if act.use is not None and act.do is not None and str(act.use) in view.nb.procedures:
            inner.append(_uses(view, view.nb.procedures[str(act.use)], act))
        inner += work_blocks(view, act, act)
        tail = (*_when(view, bare), *view.tail(act, told=("because", "do", "when")))
        anchor = view.book.anchor(act)  # of an act of the whole work only if it has an id
        items.append(Item(lead=when, words=_do(view, act), reasons=view.reasons(act), only=view.only(act),
                          anchor="" if anchor == "steps" else anchor, tail=tail, blocks=tuple(inner)))
    return [Meanwhile(items=tuple(items))] if items else []


def _uses(view: ProcedureView, used: Procedure, step: Step) -> Uses:
    """Shared work: its steps in short, and what it brings along."""
    id_ = str(used.procedure)
    lines = []
    for one in used.steps:
        do = one.do if one.do is not None else view.context.title("procedure", str(one.use))
        lines.append(view.meant(one, view.context.words(do)))
    brings = [filled("Skill: {}.", in_words.listed(view.context.link("skill", str(s)) for s in skills_of(used)))] \
        if skills_of(used) else []
    brings += [filled("Time: {}", in_words.sentence(in_words.lowered(time_words(view, t)))) for t in used.time]
    if any((step.settings, step.limits, step.conditions)):
        brings.append(Markup("Figures that stand here go before those of the same name there."))
    lead = Markup("In short:") if step.do is None else \
        filled("As told at {}, in short:", view.context.link("procedure", id_))
    return Uses(lead=lead, steps=tuple(lines), brings=tuple(brings))


def written(view: ProcedureView, work: Work) -> list[Block]:
    """What is written down and kept at this place."""
    blocks: list[Block] = []
    if work.write:
        blocks.append(Said(label="Write down", words=in_words.listed(map(view.within, work.write))))
    if work.keep:
        blocks.append(Said(label="Keep", words=Markup(" ").join(kept(view, keep) for keep in work.keep)))
    return blocks


def asked(view: ProcedureView, work: Work) -> list[Block]:
    """What is still to be asked."""
    items = tuple(
        filled('<a class="bl-untold" href="{}">still to be asked</a> {}', view.question(q.at), view.words(q))
        for q in work.questions
    )
    return [Questions(items=items)] if items else []


def said_lines(lines: Iterable[Markup]) -> list[Block]:
    """Notes and sources of a step."""
    return [Said(label="", words=line) for line in lines]


def whole(view: ProcedureView) -> list[Block]:
    """What holds all the way through: points, settings, acts in between."""
    own = view.own
    blocks = points(view, own.points)
    blocks += settings(view, own.settings, None)
    blocks += meanwhile(view, own.also)
    blocks += _optional(pictures(view, own.pictures))
    return blocks


def finder_parts(view: ProcedureView) -> tuple[Part, ...]:
    """One record a step for the finder."""
    found = []
    for number, step in enumerate(view.own.steps, 1):
        do = view.context.plain(step.do) if step.do is not None else view.context.title("procedure", str(step.use))
        text = " ".join(view.context.plain(p.point) for p in step.points)
        found.append(Part(view.book.anchor(step), f"{number}. {do}", text))
    return tuple(found)


