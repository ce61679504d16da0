"""Questions on figures: limits, settings, conditions, windows and waits, and what to do beside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Judged, Some, Word, kind_of
from site_builder.views.check import check_lines
from site_builder.views.limit_in_words import value_in_words
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    capital,
    capital_text,
    listed,
    lowered,
    say,
    sentence,
    toned,
)
from site_builder.views.remedy import remedies
from site_builder.views.side import Sides, sides
from site_builder.views.standing import standing_in_words
from site_builder.views.study.question import Question, StudyScope
from site_builder.views.study.wording import be, how_much, named, quoted
from site_builder.views.typeset import typeset
from site_builder.views.value import limit_value

_NO_SIDES = Sides(NO_WORDS, NO_WORDS, NO_WORDS)


def figures(scope: StudyScope, work: Work, step: Step | None) -> Iterator[Question]:
    """Every named figure of a step, or of the whole work."""
    for key in ("conditions", "settings", "limits"):
        group: Mapping[Text, Several[Limit]] = getattr(work, key)
        for name, limits in group.items():
            yield from _figure(scope, typeset(str(name)), limits, step, key)


def is_told(limit: Limit) -> bool:
    """Whether there is a value to learn: written, and neither asked for nor disputed."""
    if limit.opens or limit.closes:
        return True
    if isinstance(limit.is_, Table):
        return any(is_told(cell) for _, cell in limit.is_.cells())
    return limit.written is not None and not isinstance(limit.written.value.what, Ask | Some)


def measured_with(scope: StudyScope, limit: Limit) -> Prose:
    """The gauges, those of the rows of a table too."""
    gauges = dict.fromkeys([*map(str, limit.with_), *(str(g) for _, cell in limit.cells() for g in cell.with_)])
    return listed(scope.things(gauges))


def _figure(
    scope: StudyScope, name: str, limits: Several[Limit], step: Step | None, key: str
) -> Iterator[Question]:
    known = [limit for limit in limits if is_told(limit)]
    if not known:
        return
    gauge = ", and what do you measure it with" if any(measured_with(scope, limit) for limit in known) else ""
    lines: list[Prose] = []
    for limit in known:
        value = capital(value_in_words(scope, limit))
        lines.append(scope.meant(limit, sentence(value)))
        lines += limit_value(scope, limit).lines if limit.written is not None else ()
        if found := measured_with(scope, limit):
            lines.append(say("Measured with {}.", found))
        lines += [line for check in limit.check for line in check_lines(scope, check, step)]
        lines += [*scope.because(reasons=map(scope.words, limit.because)), *scope.tail(limit)]
    yield scope.asked(f"{_what(scope, name, known, key)}{gauge}?", lines, step=step)
    yield from _beside(scope, name, known, step, key == "limits")


def _what(scope: StudyScope, name: str, known: Sequence[Limit], key: str) -> str:
    first = known[0]
    if key != "settings" and first.written is not None and isinstance(first.written.value.what, Word) and \
            not limit_value(scope, first).lines:
        return f"How must {named(name)} be"
    if len(known) == 1 and first.written is not None and not isinstance(first.written.value.what, Judged):
        ends = _sides(scope, first)
        done = how_much(name, least=bool(ends.low), most=bool(ends.high))
        if done is not None:
            return done
    if key == "limits":
        return f"What is the limit for {named(name)}"
    return f"What is {named(name)}" if named(name) == name else f"What is the right {name}"


def _sides(scope: StudyScope, limit: Limit, *, of_time: bool = False) -> Sides:
    if limit.written is None:
        return _NO_SIDES
    return sides(scope, limit.written, scope.place(limit), of_time=of_time)


def _beside(
    scope: StudyScope, name: str, known: Sequence[Limit], step: Step | None, accepts: bool
) -> Iterator[Question]:
    """What to do when it is too little or too much."""
    items: list[Prose] = []
    found = set()
    for limit in known:
        ends = _sides(scope, limit)
        for key, entries, end in (("below", limit.below, ends.low), ("above", limit.above, ends.high)):
            then = remedies(scope, entries, step)
            if then:
                lead = end or ("Too little" if key == "below" else "Too much")
                items.append(scope.meant(limit, say("{} {}", toned("lead", say("{}:", lead)), then)))
                found.add(key)
    if not items:
        return
    if accepts:
        its = "its" if be(name) == "is" else "their"
        how = f"out of {its} limits" if len(found) == 2 else f"{'under' if 'below' in found else 'over'} {its} limit"
    else:
        of_time = any(limit.written is not None and kind_of(limit.written.value) == "time" for limit in known)
        low, high = ("too short", "too long") if of_time else ("too low", "too high")
        how = f"{low} or {high}" if len(found) == 2 else low if "below" in found else high
    yield scope.asked(f"What do you do when {named(name)} {be(name)} {how}?", items=items, step=step)


# --- time ---------------------------------------------------------------------------------------------------


def times(scope: StudyScope, work: Work, step: Step | None) -> Iterator[Question]:
    """How long it may or must stand; from when and until when."""
    yield from _windows(scope, work.windows, step)
    known = [limit for limit in work.wait if is_told(limit)]
    if known:
        ends = _sides(scope, known[0])
        verb = "does" if bool(ends.low) == bool(ends.high) else "must" if ends.low else "may"
        if step is not None:
            ask = f"{scope.does(step)} How long {verb} it then stand before the next step?"
        else:
            ask = f"After {quoted(scope.title)}: how long {verb} it stand before it goes on?"
        yield scope.asked(ask, [line for limit in known for line in _time_lines(scope, limit, step)], step=step)


def _windows(scope: StudyScope, group: Mapping[Text, Several[Window]], step: Step | None) -> Iterator[Question]:
    for name, windows in group.items():
        known = [window for window in windows if is_told(window)]
        if not known:
            continue
        ends = _sides(scope, known[0], of_time=True)
        when = "from when?" if ends.low and not ends.high else "until when?" if ends.high and not ends.low else \
            "from when, and until when?"
        ask = f"{capital_text(typeset(str(name)))}{_counted(scope, known[0], step)}: {when}"
        yield scope.asked(ask, [line for one in known for line in _time_lines(scope, one, step)], step=step)


def _counted(scope: StudyScope, window: Window, step: Step | None) -> str:
    if not window.after:
        return ""
    start = listed(map(scope.moment, window.after)).plain
    if window.before is not None:
        end = scope.moment(window.before).plain
    else:
        end = f"the start of {scope.step_words(step)}" if step is not None else "the end of this work"
    return f", counted from {start} to {end}"


def _time_lines(scope: StudyScope, limit: Limit, step: Step | None) -> Iterator[Prose]:
    yield scope.meant(limit, sentence(capital(standing_in_words(scope, limit))))
    ends = _sides(scope, limit, of_time=True)
    for lead, entries, end in (("Too early", limit.below, ends.low), ("Missed", limit.above, ends.high)):
        then = remedies(scope, entries, step)
        if then:
            shown = say("{} ({})", lead, lowered(end)) if end else lead
            yield say("{} {}", toned("lead", say("{}:", shown)), then)
    yield from scope.because(reasons=map(scope.words, limit.because))
    yield from scope.tail(limit)



