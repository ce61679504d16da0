"""Questions on figures: limits, settings, conditions, windows and waits, and what to do beside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup

from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import check_lines
from site_builder.handbook.pages.procedure_remedies import remedies
from site_builder.handbook.pages.procedure_sides import Sides, sides
from site_builder.handbook.pages.procedure_tables import is_short, short_table
from site_builder.handbook.pages.procedure_values import limit_worth
from site_builder.handbook.pages.study_view import Question, StudyScribe
from site_builder.handbook.pages.study_wording import be, how_much, named, quoted
from site_builder.handbook.text import typeset
from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Judged, Some, Word, kind_of

_NO_SIDES = Sides(Markup(""), Markup(""), Markup(""))


def figures(view: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """Every named figure of a step, or of the whole work."""
    for key in ("conditions", "settings", "limits"):
        group: Mapping[Text, Several[Limit]] = getattr(work, key)
        for name, limits in group.items():
            yield from _figure(view, typeset(str(name)), limits, step, key)


def is_told(limit: Limit) -> bool:
    """Whether there is a value to learn: written, and neither asked for nor disputed."""
    if isinstance(limit.is_, Table):
        return any(is_told(cell) for _, cell in limit.is_.cells())
    return limit.written is not None and not isinstance(limit.written.value.what, Ask | Some)


def value_words(view: StudyScribe, limit: Limit) -> Markup:
    """A value in running words; a table row by row."""
    if not isinstance(limit.is_, Table):
        return limit_worth(view, limit).inline
    if is_short(limit) and view.is_variant(str(limit.by[0].name)):
        return short_table(view, limit)
    rows = ((", ".join(in_words.spelt(typeset(str(name))) for name in names), limit_worth(view, cell).inline)
            for names, cell in limit.is_.cells())
    return Markup("; ").join(Markup("{}: {}").format(*row) for row in rows)


def measured_with(view: StudyScribe, limit: Limit) -> Markup:
    """The gauges, those of the rows of a table too."""
    gauges = dict.fromkeys([*map(str, limit.with_), *(str(g) for _, cell in limit.cells() for g in cell.with_)])
    return in_words.listed(view.things(gauges))


def _figure(
    view: StudyScribe, name: str, limits: Several[Limit], step: Step | None, key: str
) -> Iterator[Question]:
    known = [limit for limit in limits if is_told(limit)]
    if not known:
        return
    gauge = ", and what do you measure it with" if any(measured_with(view, limit) for limit in known) else ""
    lines: list[Markup] = []
    for limit in known:
        value = in_words.capital(value_words(view, limit))
        lines.append(view.meant(limit, in_words.sentence(value)))
        lines += limit_worth(view, limit).lines if limit.written is not None else ()
        if found := measured_with(view, limit):
            lines.append(Markup("Measured with {}.").format(found))
        lines += [line for check in limit.check for line in check_lines(view, check, step)]
        lines += [*view.because(reasons=map(view.words, limit.because)), *view.tail(limit)]
    yield view.asked(f"{_what(view, name, known, key)}{gauge}?", lines, step=step)
    yield from _beside(view, name, known, step, key == "limits")


def _what(view: StudyScribe, name: str, known: Sequence[Limit], key: str) -> str:
    first = known[0]
    if key != "settings" and first.written is not None and isinstance(first.written.value.what, Word) and \
            not limit_worth(view, first).lines:
        return f"How must {named(name)} be"
    if len(known) == 1 and first.written is not None and not isinstance(first.written.value.what, Judged):
        ends = _sides(view, first)
        done = how_much(name, least=bool(ends.low), most=bool(ends.high))
        if done is not None:
            return done
    if key == "limits":
        return f"What is the limit for {named(name)}"
    return f"What is {named(name)}" if named(name) == name else f"What is the right {name}"


def _sides(view: StudyScribe, limit: Limit, *, of_time: bool = False) -> Sides:
    if limit.written is None:
        return _NO_SIDES
    return sides(view, limit.written, view.place(limit), of_time=of_time)


def _beside(
    view: StudyScribe, name: str, known: Sequence[Limit], step: Step | None, accepts: bool
) -> Iterator[Question]:
    """What to do when it is too little or too much."""
    items: list[Markup] = []
    found = set()
    for limit in known:
        ends = _sides(view, limit)
        for key, entries, end in (("below", limit.below, ends.low), ("above", limit.above, ends.high)):
            then = remedies(view, entries, step)
            if then:
                lead = end or ("Too little" if key == "below" else "Too much")
                items.append(view.meant(limit, Markup("<b>{}:</b> {}").format(lead, then)))
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
    yield view.asked(f"What do you do when {named(name)} {be(name)} {how}?", items=items, step=step)


# --- time ---------------------------------------------------------------------------------------------------


def times(view: StudyScribe, work: Work, step: Step | None) -> Iterator[Question]:
    """How long it may or must stand; from when and until when."""
    yield from _windows(view, work.windows, step)
    known = [limit for limit in work.wait if is_told(limit)]
    if known:
        ends = _sides(view, known[0])
        verb = "does" if bool(ends.low) == bool(ends.high) else "must" if ends.low else "may"
        if step is not None:
            ask = f"{view.does(step)} How long {verb} it then stand before the next step?"
        else:
            ask = f"After {quoted(view.title)}: how long {verb} it stand before it goes on?"
        yield view.asked(ask, [line for limit in known for line in _time_lines(view, limit, step)], step=step)


def _windows(view: StudyScribe, group: Mapping[Text, Several[Window]], step: Step | None) -> Iterator[Question]:
    for name, windows in group.items():
        known = [window for window in windows if is_told(window)]
        if not known:
            continue
        ends = _sides(view, known[0], of_time=True)
        when = "from when?" if ends.low and not ends.high else "until when?" if ends.high and not ends.low else \
            "from when, and until when?"
        ask = f"{in_words.capital(typeset(str(name))).unescape()}{_counted(view, known[0], step)}: {when}"
        yield view.asked(ask, [line for one in known for line in _time_lines(view, one, step)], step=step)


def _counted(view: StudyScribe, window: Window, step: Step | None) -> str:
    if not window.after:
        return ""
    start = in_words.listed(map(view.moment, window.after)).striptags()
    if window.before is not None:
        end = view.moment(window.before).striptags()
    else:
        end = f"the start of {view.step_words(step)}" if step is not None else "the end of this work"
    return f", counted from {start} to {end}"


def _time_lines(view: StudyScribe, limit: Limit, step: Step | None) -> Iterator[Markup]:
    yield view.meant(limit, in_words.sentence(in_words.capital(value_words(view, limit))))
    ends = _sides(view, limit, of_time=True)
    for lead, entries, end in (("Too early", limit.below, ends.low), ("Missed", limit.above, ends.high)):
        then = remedies(view, entries, step)
        if then:
            shown = Markup("{} ({})").format(lead, in_words.lowered(end)) if end else lead
            yield Markup("<b>{}:</b> {}").format(shown, then)
    yield from view.because(reasons=map(view.words, limit.because))
    yield from view.tail(limit)


__all__ = ["figures", "is_told", "measured_with", "times", "value_words"]
