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
from site_builder.handbook.pages.study_scribe import Question, StudyScribe
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


def before_the_work(scribe: StudyScribe) -> Iterator[Question]:
    """Why it is done, what comes first, what one looks at, the steps in their order, and what holds all through."""
    own = scribe.own
    if own.because:
        done = deed(scribe.title, scribe.common.proper, told_to=True)
        ask = f"Why do you {done}?" if done is not None else f"{quoted(scribe.title)}: why is it done?"
        yield scribe.asked(ask, scribe.because(own))
    if items := [*_first(scribe)]:
        reason = ", and why" if own.after and any(after.because for after in own.after) else ""
        yield scribe.asked(f"What comes before {quoted(scribe.title)}{reason}?", items=items)
    if looks := [*_looks(scribe, own.ready)]:
        yield scribe.asked(f"What do you look at {scribe.before_you}?", items=looks)
    if own.hands:
        yield scribe.asked(f"How many hands are needed {scribe.when_you}?", [hands_words(scribe, own.hands, None)])
    if len(own.steps) >= _FEW:
        steps = [scribe.meant(step, scribe.words(step.do) if step.do is not None else
                              scribe.pen.link("procedure", str(step.use))) for step in own.steps]
        yield scribe.asked(f"In what order do the steps come {scribe.when_you}?", items=steps, ordered=True)
    yield from figures(scribe, own, None)
    yield from _points(scribe, own, None)
    for act in own.also:
        yield from _act(scribe, act, None)


def at_each_step(scribe: StudyScribe) -> Iterator[Question]:
    """Step by step, in the order of the work."""
    for step in scribe.own.steps:
        only = scribe.only(step)
        if step.because and step.do is not None:
            yield scribe.asked(why(scribe.pen.plain(step.do), scribe.common.proper, told_to=True),
                               scribe.because(step), step=step, only=only)
        yield from _finds(scribe, step)
        yield from _points(scribe, step, step)
        yield from figures(scribe, step, step)
        for act in step.also:
            yield from _act(scribe, act, step)
        yield from _judged(scribe, step, step)
        yield from _troubles(scribe, step.troubles, step)
        for act in step.also:
            yield from _troubles(scribe, act.troubles, step)


def after_the_work(scribe: StudyScribe) -> Iterator[Question]:
    """How one knows that it is done, what goes wrong, and where the piece goes on."""
    yield from _judged(scribe, scribe.own, None)
    yield from _troubles(scribe, scribe.own.troubles, None)
    following = [scribe.pen.link("procedure", one) for one in scribe.book.survey.route.after.get(scribe.id, ())]
    if following:
        yield scribe.asked(f"What comes after {quoted(scribe.title)}?", items=following)


def _first(scribe: StudyScribe) -> Iterator[Markup]:
    """What must be done before, each with the reason for the order; else what the route says."""
    for after in scribe.own.after:
        told = in_words.capital(in_words.moment(after.done.value, scribe.named, bare=True))
        yield scribe.meant(after, _with_reasons(scribe, told, map(scribe.words, after.because)))
    if not scribe.own.after:
        for one in scribe.book.survey.route.before.get(scribe.id, ()):
            yield scribe.pen.link("procedure", one)


def _with_reasons(scribe: StudyScribe, words: Markup, reasons: Iterable[Markup]) -> Markup:
    told = scribe.because(reasons=reasons)
    return Markup(" ").join((in_words.sentence(words), *told))


def _looks(scribe: StudyScribe, checks: Iterable[Check]) -> Iterator[Markup]:
    for check in checks:
        if check.good is not None:
            then = remedies(scribe, check.fails, None)
            told = in_words.sentence(scribe.words(check.good))
            yield scribe.meant(check, Markup("{} If not: {}").format(told, then) if then else told)


def _points(scribe: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    bare = [point for point in work.points if not point.because]
    if bare:
        items = (_with_reasons(scribe, scribe.meant(p, scribe.words(p.point)), map(scribe.words, p.because))
                 for p in work.points)
        yield scribe.asked(f"{scribe.does(work)} What must you mind?", items=items, step=step)
    for point in work.points:
        if point.because:
            told = scribe.pen.plain(point.point)
            lead = f"{scribe.does(work)} " if len(told.split()) < _ALONE else ""
            yield scribe.asked(lead + why(told, scribe.common.proper),
                               scribe.because(reasons=map(scribe.words, point.because)), step=step,
                               only=scribe.only(point))


def _act(scribe: StudyScribe, act: Step, step: Step | None) -> Iterator[Question]:
    """What is done every so often within the work."""
    if act.when is not None and act.do is not None:
        reason = ", and why" if act.because else ""
        when = in_words.sentence(in_words.capital(scribe.cadence(act.when)))
        yield scribe.asked(f"{scribe.does(act)} When{reason}?", [when, *scribe.because(act)], step=step,
                           only=scribe.only(act))
    elif act.because and act.do is not None:
        yield scribe.asked(why(scribe.pen.plain(act.do), scribe.common.proper, told_to=True), scribe.because(act),
                           step=step, only=scribe.only(act))
    yield from _points(scribe, act, step)
    yield from figures(scribe, act, step)


def _finds(scribe: StudyScribe, step: Step) -> Iterator[Question]:
    """What the work itself shows and decides."""
    for dimension, values in step.finds.items():
        items = [Markup("<b>{}:</b> {}").format(in_words.capital(str(value)), Markup(" ").join(
            check_lines(scribe, check, step)).removeprefix("Good: ")) for value, check in values.items() if check.good]
        if items:
            yield scribe.asked(f"{scribe.does(step)} How do you tell which {dimension} it is?", items=items, step=step)


def _judged(scribe: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """Good and bad; when it is over; how often again; how long it stands."""
    for check in (*work.feel, *work.checks):
        yield from _good_and_bad(scribe, check, work, step)
    ends = [stage_words(scribe, end, step) for end in work.until if end.told()]
    if ends:
        lead = scribe.does(step) if step is not None else ""
        ask = f"{lead} Until when?" if step is not None else f"How do you know that you are done, {scribe.when_you}?"
        told = [in_words.capital(Markup("until {}").format(end) if step is not None else end) for end in ends]
        yield scribe.asked(ask, told[:1] if len(told) == 1 else (), told if len(told) > 1 else (), step=step,
                           ordered=True)
    yield from _again(scribe, work, step)
    yield from times(scribe, work, step)


def _good_and_bad(scribe: StudyScribe, check: Check, work: Work, step: Step | None) -> Iterator[Question]:
    if check.good is None and not check.bad:
        return
    like = _LIKE.get(str(check.sense), "look like")
    sides = " and ".join(filter(None, ("good" if check.good is not None else "", "bad" if check.bad else "")))
    first = scribe.pen.plain(check.where) if check.where is not None else scribe.pen.plain(check.do)
    lead = stop(_capital(first)) if first else scribe.does(work)
    lines = [Markup("<b>Good:</b> {}").format(in_words.sentence(scribe.words(check.good)))] if check.good else []
    lines += [Markup("<b>Bad:</b> {}").format(in_words.sentence(scribe.words(bad))) for bad in check.bad]
    if then := remedies(scribe, check.fails, step):
        lines.append(Markup("<b>If bad:</b> {}").format(then))
    lines += [*scribe.because(reasons=map(scribe.words, check.because))]
    verb = "do" if " and " in sides else "does"
    yield scribe.asked(f"{lead} What {verb} {sides} {like}?", lines, step=step, only=scribe.only(check))


def _again(scribe: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """Loops: until what, and how often."""
    loop = work.repeat
    if loop is None:
        return
    stages = [stage_words(scribe, end, step) for end in loop.until if end.told()]
    often = loop.times is not None and not isinstance(loop.times.value.what, Ask)
    lines = [in_words.capital(Markup("until {}").format(stage)) for stage in stages]
    if loop.times is not None and often:
        lines.append(in_words.sentence(in_words.capital(in_words.how_often(loop.times.value))))
    if loop.from_ is not None and (step is None or loop.from_ != step.id):
        lines.insert(0, Markup("Again from {}.").format(scribe.named(str(loop.from_))))
    lines += scribe.because(reasons=map(scribe.words, loop.because))
    if stages or often:
        what = "How often is it done again" if not stages else "Until when is it done again"
        also = ", and how often" if stages and often else ""
        yield scribe.asked(f"{scribe.does(work)} {what}{also}?", lines, step=step, only=scribe.only(loop))


def _troubles(scribe: StudyScribe, troubles: Iterable[Trouble], step: Step | None) -> Iterator[Question]:
    for trouble in troubles:
        cause = in_words.sentence(scribe.words(trouble.cause)) if trouble.cause is not None else Markup("")
        mend = remedy(scribe, trouble.with_changes(asked=frozenset()), step)
        if not cause and not mend:
            continue
        sign = scribe.pen.plain(trouble.sign)
        happens = clause(sign, scribe.common.proper)
        if happens is None:
            asks = ("what is the cause" if cause else "", "what do you do" if mend else "")
            ask = f"{stop(sign)} {_capital(', and '.join(filter(None, asks)))}?"
        elif mend:
            ask = f"What do you do when {happens}{', and what is the cause' if cause else ''}?"
        else:
            ask = f"What is the cause when {happens}?"
        lines = [Markup("<b>Cause:</b> {}").format(cause) if cause else Markup(""), mend]
        yield scribe.asked(ask, lines, step=step, only=scribe.only(trouble))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


__all__ = ["after_the_work", "at_each_step", "before_the_work"]
