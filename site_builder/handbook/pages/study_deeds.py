"""Questions on what is done: order, reasons, key points, what tells good from bad, ends, troubles."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import check_lines
from site_builder.handbook.pages.procedure_facts import hands_words
from site_builder.handbook.pages.procedure_remedies import remedies, remedy
from site_builder.handbook.pages.procedure_signs import stage_words
from site_builder.handbook.pages.study_figures import figures, times
from site_builder.handbook.pages.study_view import Question, StudyScribe
from site_builder.handbook.pages.study_wording import clause, deed, quoted, stop, why
from site_builder.notebook.model.judging import Check, Trouble
from site_builder.notebook.model.procedure import Step, Work
from site_builder.quantity import Ask

_LIKE = {"touch": "feel like", "sight": "look like", "sound": "sound like", "smell": "smell like",
         "weight": "feel like in the hand", "warmth": "feel like"}
_ALONE = 5
"""A point of fewer words than this is not understood without what the step does."""
_FEW = 3
"""Fewer steps than this are not worth asking for in their order."""


def before_the_work(view: StudyScribe) -> Iterator[Question]:
    """Why it is done, what comes first, what one looks at, the steps in their order, and what holds all through."""
    own = view.own
    if own.because:
        done = deed(view.title, view.common.proper, told_to=True)
        ask = f"Why do you {done}?" if done is not None else f"{quoted(view.title)}: why is it done?"
        yield view.asked(ask, view.because(own))
    if items := [*_first(view)]:
        reason = ", and why" if own.after and any(after.because for after in own.after) else ""
        yield view.asked(f"What comes before {quoted(view.title)}{reason}?", items=items)
    if looks := [*_looks(view, own.ready)]:
        yield view.asked(f"What do you look at {view.before_you}?", items=looks)
    if own.hands:
        yield view.asked(f"How many hands are needed {view.when_you}?", [hands_words(view, own.hands, None)])
    if len(own.steps) >= _FEW:
        steps = [view.meant(step, view.words(step.do) if step.do is not None else
                              view.context.link("procedure", str(step.use))) for step in own.steps]
        yield view.asked(f"In what order do the steps come {view.when_you}?", items=steps, ordered=True)
    yield from figures(view, own, None)
    yield from _points(view, own, None)
    for act in own.also:
        yield from _act(view, act, None)


def at_each_step(view: StudyScribe) -> Iterator[Question]:
    """Step by step, in the order of the work."""
    for step in view.own.steps:
        only = view.only(step)
        if step.because and step.do is not None:
            yield view.asked(why(view.context.plain(step.do), view.common.proper, told_to=True),
                               view.because(step), step=step, only=only)
        yield from _finds(view, step)
        yield from _points(view, step, step)
        yield from figures(view, step, step)
        for act in step.also:
            yield from _act(view, act, step)
        yield from _judged(view, step, step)
        yield from _troubles(view, step.troubles, step)
        for act in step.also:
            yield from _troubles(view, act.troubles, step)


def after_the_work(view: StudyScribe) -> Iterator[Question]:
    """How one knows that it is done, what goes wrong, and where the piece goes on."""
    yield from _judged(view, view.own, None)
    yield from _troubles(view, view.own.troubles, None)
    following = [view.context.link("procedure", one) for one in view.book.analysis.route.after.get(view.id, ())]
    if following:
        yield view.asked(f"What comes after {quoted(view.title)}?", items=following)


def _first(view: StudyScribe) -> Iterator[Markup]:
    """What must be done before, each with the reason for the order; else what the route says."""
    for after in view.own.after:
        told = in_words.capital(in_words.moment(after.done.value, view.named, bare=True))
        yield view.meant(after, _with_reasons(view, told, map(view.words, after.because)))
    if not view.own.after:
        for one in view.book.analysis.route.before.get(view.id, ()):
            yield view.context.link("procedure", one)


def _with_reasons(view: StudyScribe, words: Markup, reasons: Iterable[Markup]) -> Markup:
    told = view.because(reasons=reasons)
    return Markup(" ").join((in_words.sentence(words), *told))


def _looks(view: StudyScribe, checks: Iterable[Check]) -> Iterator[Markup]:
    for check in checks:
        if check.good is not None:
            then = remedies(view, check.fails, None)
            told = in_words.sentence(view.words(check.good))
            yield view.meant(check, Markup("{} If not: {}").format(told, then) if then else told)


def _points(view: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    bare = [point for point in work.points if not point.because]
    if bare:
        items = (_with_reasons(view, view.meant(p, view.words(p.point)), map(view.words, p.because))
                 for p in work.points)
        yield view.asked(f"{view.does(work)} What must you mind?", items=items, step=step)
    for point in work.points:
        if point.because:
            told = view.context.plain(point.point)
            lead = f"{view.does(work)} " if len(told.split()) < _ALONE else ""
            yield view.asked(lead + why(told, view.common.proper),
                               view.because(reasons=map(view.words, point.because)), step=step,
                               only=view.only(point))


def _act(view: StudyScribe, act: Step, step: Step | None) -> Iterator[Question]:
    """What is done every so often within the work."""
    if act.when is not None and act.do is not None:
        reason = ", and why" if act.because else ""
        when = in_words.sentence(in_words.capital(view.cadence(act.when)))
        yield view.asked(f"{view.does(act)} When{reason}?", [when, *view.because(act)], step=step,
                           only=view.only(act))
    elif act.because and act.do is not None:
        yield view.asked(why(view.context.plain(act.do), view.common.proper, told_to=True), view.because(act),
                           step=step, only=view.only(act))
    yield from _points(view, act, step)
    yield from figures(view, act, step)


def _finds(view: StudyScribe, step: Step) -> Iterator[Question]:
    """What the work itself shows and decides."""
    for dimension, values in step.finds.items():
        items = [Markup("<b>{}:</b> {}").format(in_words.capital(str(value)), Markup(" ").join(
            check_lines(view, check, step)).removeprefix("Good: ")) for value, check in values.items() if check.good]
        if items:
            yield view.asked(f"{view.does(step)} How do you tell which {dimension} it is?", items=items, step=step)


def _judged(view: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """Good and bad; when it is over; how often again; how long it stands."""
    for check in (*work.feel, *work.checks):
        yield from _good_and_bad(view, check, work, step)
    ends = [stage_words(view, end, step) for end in work.until if end.told()]
    if ends:
        lead = view.does(step) if step is not None else ""
        ask = f"{lead} Until when?" if step is not None else f"How do you know that you are done, {view.when_you}?"
        told = [in_words.capital(Markup("until {}").format(end) if step is not None else end) for end in ends]
        yield view.asked(ask, told[:1] if len(told) == 1 else (), told if len(told) > 1 else (), step=step,
                           ordered=True)
    yield from _again(view, work, step)
    yield from times(view, work, step)


def _good_and_bad(view: StudyScribe, check: Check, work: Work, step: Step | None) -> Iterator[Question]:
    if check.good is None and not check.bad:
        return
    like = _LIKE.get(str(check.sense), "look like")
    sides = " and ".join(filter(None, ("good" if check.good is not None else "", "bad" if check.bad else "")))
    first = view.context.plain(check.where) if check.where is not None else view.context.plain(check.do)
    lead = stop(_capital(first)) if first else view.does(work)
    lines = [Markup("<b>Good:</b> {}").format(in_words.sentence(view.words(check.good)))] if check.good else []
    lines += [Markup("<b>Bad:</b> {}").format(in_words.sentence(view.words(bad))) for bad in check.bad]
    if then := remedies(view, check.fails, step):
        lines.append(Markup("<b>If bad:</b> {}").format(then))
    lines += [*view.because(reasons=map(view.words, check.because))]
    verb = "do" if " and " in sides else "does"
    yield view.asked(f"{lead} What {verb} {sides} {like}?", lines, step=step, only=view.only(check))


def _again(view: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """Loops: until what, and how often."""
    loop = work.repeat
    if loop is None:
        return
    stages = [stage_words(view, end, step) for end in loop.until if end.told()]
    often = loop.times is not None and not isinstance(loop.times.value.what, Ask)
    lines = [in_words.capital(Markup("until {}").format(stage)) for stage in stages]
    if loop.times is not None and often:
        lines.append(in_words.sentence(in_words.capital(in_words.how_often(loop.times.value))))
    if loop.from_ is not None and (step is None or loop.from_ != step.id):
        lines.insert(0, Markup("Again from {}.").format(view.named(str(loop.from_))))
    lines += view.because(reasons=map(view.words, loop.because))
    if stages or often:
        what = "How often is it done again" if not stages else "Until when is it done again"
        also = ", and how often" if stages and often else ""
        yield view.asked(f"{view.does(work)} {what}{also}?", lines, step=step, only=view.only(loop))


def _troubles(view: StudyScribe, troubles: Iterable[Trouble], step: Step | None) -> Iterator[Question]:
    for trouble in troubles:
        cause = in_words.sentence(view.words(trouble.cause)) if trouble.cause is not None else Markup("")
        fix = remedy(view, trouble.with_changes(asked=frozenset()), step)
        if not cause and not fix:
            continue
        sign = view.context.plain(trouble.sign)
        happens = clause(sign, view.common.proper)
        if happens is None:
            asks = ("what is the cause" if cause else "", "what do you do" if fix else "")
            ask = f"{stop(sign)} {_capital(', and '.join(filter(None, asks)))}?"
        elif fix:
            ask = f"What do you do when {happens}{', and what is the cause' if cause else ''}?"
        else:
            ask = f"What is the cause when {happens}?"
        lines = [Markup("<b>Cause:</b> {}").format(cause) if cause else Markup(""), fix]
        yield view.asked(ask, lines, step=step, only=view.only(trouble))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


__all__ = ["after_the_work", "at_each_step", "before_the_work"]
