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
from site_builder.handbook.pages.procedure_scribe import Scribe
from site_builder.handbook.pages.procedure_signs import kept
from site_builder.handbook.pages.procedure_troubles import at_step
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


def steps(scribe: Scribe) -> tuple[StepView, ...]:
    """All steps in order."""
    return tuple(_step(scribe, number, step) for number, step in enumerate(scribe.own.steps, 1))


def _step(scribe: Scribe, number: int, step: Step) -> StepView:
    return StepView(
        anchor=scribe.book.anchor(step), number=number, do=_do(scribe, step), only=scribe.only(step),
        when=tuple(_when(scribe, step)), reasons=scribe.reasons(step),
        first=tuple(step_signals(scribe, step.hazards, notices=False)), blocks=tuple(_below(scribe, step)),
    )


def _do(scribe: Scribe, step: Step) -> Markup:
    if step.do is not None:
        return scribe.words(step.do)
    if step.use is not None:
        return scribe.pen.link("procedure", str(step.use))
    return scribe.untold("what to do is not told yet", step.at)


def _when(scribe: Scribe, step: Step) -> list[Markup]:
    """Above the sentence: for whom, when, for how much at once, when not."""
    lines: list[Markup] = []
    only = scribe.only(step)
    if only.words:
        lines.append(only.words)
    if step.when is not None:
        lines.append(in_words.capital(scribe.cadence(step.when)))
    if step.per is not None and step.per != "piece":
        lines.append(Markup("The whole lot before the next step") if step.per == "lot" else
                     filled("Each {} before the next step", scribe.words(step.per)))
    for after in step.after:
        said = filled("Only after {}", scribe.moment(after.done))
        why = scribe.inline_why(after)
        told = filled("{}, {}", said, why) if why else said
        lines.append(scribe.meant(after, in_words.joined_sentences([told, *scribe.tail(after)])))
    if step.unless is not None:
        lines.append(exemption(scribe, step.unless, "Left out if"))
    return lines


def _below(scribe: Scribe, step: Step) -> list[Block]:
    blocks: list[Block] = []
    if step.use is not None and str(step.use) in scribe.nb.procedures:
        blocks.append(_uses(scribe, scribe.nb.procedures[str(step.use)], step))
    blocks += said_lines(scribe.tail(step, told=("because", "do", "when")))
    blocks += work_blocks(scribe, step, step)
    return blocks


def work_blocks(scribe: Scribe, work: Work, here: Step | None) -> list[Block]:
    """What hangs on a step, or on an act within it, in the order of doing."""
    blocks: list[Block] = points(scribe, work.points)
    blocks += uses_line(scribe, work)
    looked = ready_items(scribe, work.ready, here)
    blocks += [Points(items=tuple(_first_look(item) for item in looked))] if looked else []
    blocks += named(scribe, work.conditions, here)
    blocks += settings(scribe, work.settings, here)
    blocks += [Said(label=label, words=words) for label, words in work_facts(scribe, work, here)]
    blocks += meanwhile(scribe, work.also)
    blocks += step_nevers(scribe, work) if isinstance(work, Step) else []
    blocks += _optional(pictures(scribe, work.pictures))
    blocks += judged(scribe, work, here)
    blocks += step_signals(scribe, work.hazards, notices=True) if isinstance(work, Step) else []
    blocks += written(scribe, work)
    blocks += at_step(scribe, work)
    blocks += asked(scribe, work)
    return blocks


def _first_look(item: Item) -> Item:
    return Item(words=filled("First see: {}", item.words), reasons=item.reasons, only=item.only,
                tail=item.tail, blocks=item.blocks)


def judged(scribe: Scribe, work: Work, here: Step | None) -> list[Block]:
    """How one knows that it is good and when it is done; how long it may stand."""
    blocks = named(scribe, work.limits, here)
    blocks += looks(scribe, work, here)
    blocks += finds(scribe, work)
    blocks += _optional(ends(scribe, work.until, here, "Done when" if here is not None else "You are done when"))
    blocks += _optional(loop(scribe, work.repeat, here))
    blocks += windows(scribe, work.windows, here)
    blocks += waits(scribe, work.wait, here)
    return blocks


def _optional(block: Block | None) -> list[Block]:
    return [block] if block is not None else []


def points(scribe: Scribe, found: Iterable[Point]) -> list[Block]:
    """Key points with their reasons, their pictures below."""
    listed = tuple(found)
    items = tuple(
        Item(words=scribe.words(p.point), reasons=scribe.reasons(p), only=scribe.only(p), tail=scribe.tail(p))
        for p in listed
    )
    return [*([Points(items=items)] if items else []), *_optional(point_pictures(scribe, listed))]


def meanwhile(scribe: Scribe, acts: Iterable[Step]) -> list[Block]:
    """What is done within the work, each with its rhythm; an act is a step and may carry what a step carries."""
    items = []
    for act in acts:
        when = in_words.capital(scribe.cadence(act.when)) if act.when is not None else \
            in_words.capital(scribe.untold("when is not told yet", act.at))
        bare = act.with_changes(when=None, for_=())
        inner: list[Block] = [*step_signals(scribe, act.hazards, notices=False)]
        if act.use is not None and act.do is not None and str(act.use) in scribe.nb.procedures:
            inner.append(_uses(scribe, scribe.nb.procedures[str(act.use)], act))
        inner += work_blocks(scribe, act, act)
        tail = (*_when(scribe, bare), *scribe.tail(act, told=("because", "do", "when")))
        anchor = scribe.book.anchor(act)  # of an act of the whole work only if it has an id
        items.append(Item(lead=when, words=_do(scribe, act), reasons=scribe.reasons(act), only=scribe.only(act),
                          anchor="" if anchor == "steps" else anchor, tail=tail, blocks=tuple(inner)))
    return [Meanwhile(items=tuple(items))] if items else []


def _uses(scribe: Scribe, used: Procedure, step: Step) -> Uses:
    """Shared work: its steps in short, and what it brings along."""
    id_ = str(used.procedure)
    lines = []
    for one in used.steps:
        do = one.do if one.do is not None else scribe.pen.title("procedure", str(one.use))
        lines.append(scribe.meant(one, scribe.pen.words(do)))
    brings = [filled("Skill: {}.", in_words.listed(scribe.pen.link("skill", str(s)) for s in skills_of(used)))] \
        if skills_of(used) else []
    brings += [filled("Time: {}", in_words.sentence(in_words.lowered(time_words(scribe, t)))) for t in used.time]
    if any((step.settings, step.limits, step.conditions)):
        brings.append(Markup("Figures that stand here go before those of the same name there."))
    lead = Markup("In short:") if step.do is None else \
        filled("As told at {}, in short:", scribe.pen.link("procedure", id_))
    return Uses(lead=lead, steps=tuple(lines), brings=tuple(brings))


def written(scribe: Scribe, work: Work) -> list[Block]:
    """What is written down and kept at this place."""
    blocks: list[Block] = []
    if work.write:
        blocks.append(Said(label="Write down", words=in_words.listed(map(scribe.within, work.write))))
    if work.keep:
        blocks.append(Said(label="Keep", words=Markup(" ").join(kept(scribe, keep) for keep in work.keep)))
    return blocks


def asked(scribe: Scribe, work: Work) -> list[Block]:
    """What is still to be asked."""
    items = tuple(
        filled('<a class="bl-untold" href="{}">still to be asked</a> {}', scribe.question(q.at), scribe.words(q))
        for q in work.questions
    )
    return [Questions(items=items)] if items else []


def said_lines(lines: Iterable[Markup]) -> list[Block]:
    """Notes and sources of a step."""
    return [Said(label="", words=line) for line in lines]


def whole(scribe: Scribe) -> list[Block]:
    """What holds all the way through: points, settings, acts in between."""
    own = scribe.own
    blocks = points(scribe, own.points)
    blocks += settings(scribe, own.settings, None)
    blocks += meanwhile(scribe, own.also)
    blocks += _optional(pictures(scribe, own.pictures))
    return blocks


def finder_parts(scribe: Scribe) -> tuple[Part, ...]:
    """One record a step for the finder."""
    found = []
    for number, step in enumerate(scribe.own.steps, 1):
        do = scribe.pen.plain(step.do) if step.do is not None else scribe.pen.title("procedure", str(step.use))
        text = " ".join(scribe.pen.plain(p.point) for p in step.points)
        found.append(Part(scribe.book.anchor(step), f"{number}. {do}", text))
    return tuple(found)


