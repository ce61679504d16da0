"""Questions on what is done: order, reasons, key points, what tells good from bad, ends, troubles."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.notebook.model.judging import Check, Trouble
from site_builder.notebook.model.procedure import Step, Work
from site_builder.quantity import Ask
from site_builder.views import rhythm
from site_builder.views.check import check_lines
from site_builder.views.counts import how_often
from site_builder.views.end import stage_words
from site_builder.views.facts import hands_words
from site_builder.views.prose import NO_WORDS, Prose, capital, capital_text, joined, say, sentence, toned, without_start
from site_builder.views.remedy import causes, remedies, remedy
from site_builder.views.stop import exclude_each_other
from site_builder.views.study.figures import figures, times
from site_builder.views.study.question import Question, StudyScope
from site_builder.views.study.wording import clause, deed, quoted, stop, why

_LIKE = {"touch": "feel like", "sight": "look like", "sound": "sound like", "smell": "smell like",
         "taste": "taste like", "weight": "feel like in the hand", "warmth": "feel like"}
_ALONE = 5
"""A point of fewer words than this is not understood without what the step does."""
_FEW = 3
"""Fewer steps than this are not worth asking for in their order."""


def before_the_work(scope: StudyScope) -> Iterator[Question]:
    """Why it is done, what comes first, what one looks at, the steps in their order, and what holds all through."""
    own = scope.own
    if own.because:
        done = deed(scope.title, scope.view.proper, told_to=True)
        ask = f"Why do you {done}?" if done is not None else f"{quoted(scope.title)}: why is it done?"
        yield scope.asked(ask, scope.because(own))
    if items := [*_first(scope)]:
        reason = ", and why" if own.after and any(after.because for after in own.after) else ""
        yield scope.asked(f"What comes before {quoted(scope.title)}{reason}?", items=items)
    if looks := [*_looks(scope, own.ready)]:
        yield scope.asked(f"What do you look at {scope.before_you}?", items=looks)
    if own.hands:
        yield scope.asked(f"How many hands are needed {scope.when_you}?", [hands_words(scope, own.hands, None)])
    if len(own.steps) >= _FEW:
        steps = [scope.meant(step, scope.words(step.do) if step.do is not None else
                              scope.view.link("procedure", str(step.use))) for step in own.steps]
        yield scope.asked(f"In what order do the steps come {scope.when_you}?", items=steps, ordered=True)
    yield from figures(scope, own, None)
    yield from _points(scope, own, None)
    for act in own.also:
        yield from _act(scope, act, None)


def at_each_step(scope: StudyScope) -> Iterator[Question]:
    """Step by step, in the order of the work."""
    for step in scope.own.steps:
        only = scope.only(step)
        if step.because and step.do is not None:
            yield scope.asked(why(scope.view.plain(step.do), scope.view.proper, told_to=True),
                               scope.because(step), step=step, only=only)
        yield from _finds(scope, step)
        yield from _points(scope, step, step)
        yield from figures(scope, step, step)
        for act in step.also:
            yield from _act(scope, act, step)
        yield from _judged(scope, step, step)
        yield from _troubles(scope, step.troubles, step)
        for act in step.also:
            yield from _troubles(scope, act.troubles, step)


def after_the_work(scope: StudyScope) -> Iterator[Question]:
    """How one knows that it is done, what goes wrong, and where the piece goes on."""
    yield from _judged(scope, scope.own, None)
    yield from _troubles(scope, scope.own.troubles, None)
    following = [scope.view.link("procedure", one) for one in scope.view.analysis.route.after.get(scope.id, ())]
    if following:
        yield scope.asked(f"What comes after {quoted(scope.title)}?", items=following)


def _first(scope: StudyScope) -> Iterator[Prose]:
    """What must be done before, each with the reason for the order; else what the route says."""
    for after in scope.own.after:
        told = capital(rhythm.moment(after.done.value, scope.named, bare=True))
        yield scope.meant(after, _with_reasons(scope, told, map(scope.words, after.because)))
    if not scope.own.after:
        for one in scope.view.analysis.route.before.get(scope.id, ()):
            yield scope.view.link("procedure", one)


def _with_reasons(scope: StudyScope, words: Prose, reasons: Iterable[Prose]) -> Prose:
    told = scope.because(reasons=reasons)
    return joined((sentence(words), *told))


def _looks(scope: StudyScope, checks: Iterable[Check]) -> Iterator[Prose]:
    for check in checks:
        if check.good is not None:
            then = remedies(scope, check.fails, None)
            told = sentence(scope.words(check.good))
            yield scope.meant(check, say("{} If not: {}", told, then) if then else told)


def _points(scope: StudyScope, work: Work, step: Step | None) -> Iterator[Question]:
    bare = [point for point in work.points if not point.because]
    if bare:
        items = (_with_reasons(scope, scope.meant(p, scope.words(p.point)), map(scope.words, p.because))
                 for p in work.points)
        yield scope.asked(f"{scope.does(work)} What must you mind?", items=items, step=step)
    for point in work.points:
        if point.because:
            told = scope.view.plain(point.point)
            lead = f"{scope.does(work)} " if len(told.split()) < _ALONE else ""
            yield scope.asked(lead + why(told, scope.view.proper),
                               scope.because(reasons=map(scope.words, point.because)), step=step,
                               only=scope.only(point))


def _act(scope: StudyScope, act: Step, step: Step | None) -> Iterator[Question]:
    """What is done every so often within the work."""
    if act.when is not None and act.do is not None:
        reason = ", and why" if act.because else ""
        when = sentence(capital(scope.cadence(act.when)))
        yield scope.asked(f"{scope.does(act)} When{reason}?", [when, *scope.because(act)], step=step,
                           only=scope.only(act))
    elif act.because and act.do is not None:
        yield scope.asked(why(scope.view.plain(act.do), scope.view.proper, told_to=True), scope.because(act),
                           step=step, only=scope.only(act))
    yield from _points(scope, act, step)
    yield from figures(scope, act, step)


def _finds(scope: StudyScope, step: Step) -> Iterator[Question]:
    """What the work itself shows and decides."""
    for dimension, values in step.finds.items():
        items = [joined((toned("lead", f"{capital_text(str(value))}:"),
                         without_start(joined(check_lines(scope, check, step)), "Good: ")))
                 for value, check in values.items() if check.good]
        if items:
            yield scope.asked(f"{scope.does(step)} How do you tell which {dimension} it is?", items=items, step=step)


def _judged(scope: StudyScope, work: Work, step: Step | None) -> Iterator[Question]:
    """Good and bad; when it is over; how often again; how long it stands."""
    for check in (*work.feel, *work.checks):
        yield from _good_and_bad(scope, check, work, step)
    ends = [scope.meant(end, stage_words(scope, end, step)) for end in work.until if end.ways()]
    exclusive = exclude_each_other([end for end in work.until if end.ways()])
    if ends:
        lead = scope.does(step) if step is not None else ""
        ask = f"{lead} Until when?" if step is not None else f"How do you know that you are done, {scope.when_you}?"
        told = [capital(say("until {}", end) if step is not None else end) for end in ends]
        yield scope.asked(ask, told[:1] if len(told) == 1 else (), told if len(told) > 1 else (), step=step,
                           ordered=not exclusive)
    yield from _again(scope, work, step)
    yield from times(scope, work, step)


def _good_and_bad(scope: StudyScope, check: Check, work: Work, step: Step | None) -> Iterator[Question]:
    if check.good is None and not check.bad:
        return
    like = _LIKE.get(str(check.sense), "look like")
    sides = " and ".join(filter(None, ("good" if check.good is not None else "", "bad" if check.bad else "")))
    first = scope.view.plain(check.where) if check.where is not None else scope.view.plain(check.do)
    lead = stop(capital_text(first)) if first else scope.does(work)
    lines = [say("{} {}", toned("lead", "Good:"), sentence(scope.words(check.good)))] if check.good else []
    lines += [say("{} {}", toned("lead", "Bad:"), sentence(scope.words(bad))) for bad in check.bad]
    if then := remedies(scope, check.fails, step):
        lines.append(say("{} {}", toned("lead", "If bad:"), then))
    lines += [*scope.because(reasons=map(scope.words, check.because))]
    verb = "do" if " and " in sides else "does"
    yield scope.asked(f"{lead} What {verb} {sides} {like}?", lines, step=step, only=scope.only(check))


def _again(scope: StudyScope, work: Work, step: Step | None) -> Iterator[Question]:
    """Loops: until what, and how often."""
    loop = work.repeat
    if loop is None:
        return
    stages = [scope.meant(end, stage_words(scope, end, step)) for end in loop.until if end.ways()]
    often = loop.times is not None and not isinstance(loop.times.value.what, Ask)
    lines = [capital(say("until {}", stage)) for stage in stages]
    if loop.times is not None and often:
        lines.append(sentence(capital(how_often(loop.times.value))))
    if loop.from_ is not None and (step is None or loop.from_ != step.id):
        lines.insert(0, say("Again from {}.", scope.named(str(loop.from_))))
    lines += scope.because(reasons=map(scope.words, loop.because))
    if stages or often:
        what = "How often is it done again" if not stages else "Until when is it done again"
        also = ", and how often" if stages and often else ""
        yield scope.asked(f"{scope.does(work)} {what}{also}?", lines, step=step, only=scope.only(loop))


def _troubles(scope: StudyScope, troubles: Iterable[Trouble], step: Step | None) -> Iterator[Question]:
    for trouble in troubles:
        cause = sentence(causes(scope, trouble)) if trouble.cause else NO_WORDS
        fix = remedy(scope, trouble.with_changes(asked=frozenset()), step)
        means = sentence(scope.words(trouble.means)) if trouble.means is not None else NO_WORDS
        if not cause and not fix:
            continue
        sign = scope.view.plain(trouble.sign)
        happens = clause(sign, scope.view.proper)
        if happens is None:
            asks = ("what is the cause" if cause else "", "what do you do" if fix else "")
            ask = f"{stop(sign)} {capital_text(', and '.join(filter(None, asks)))}?"
        elif fix:
            ask = f"What do you do when {happens}{', and what is the cause' if cause else ''}?"
        else:
            ask = f"What is the cause when {happens}?"
        lines = [say("{} {}", toned("lead", "Cause:"), cause) if cause else NO_WORDS, means, fix]
        yield scope.asked(ask, lines, step=step, only=scope.only(trouble))
