"""Limits, settings, conditions and windows: one gauge line each, a small table where one is read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import check_lines, grades
from site_builder.handbook.pages.procedure_remedies import exemption, pictures, remedies
from site_builder.handbook.pages.procedure_sides import asked_end, sides
from site_builder.handbook.pages.procedure_signs import doubts, shifted
from site_builder.handbook.pages.procedure_tables import is_short, short_table, table
from site_builder.handbook.pages.procedure_values import Worth, limit_worth, value_link
from site_builder.handbook.pages.procedure_view import ProcedureView, meant
from site_builder.handbook.pages.procedure_views import Block, Gauge, Item, Settings, Side
from site_builder.handbook.theme import token
from site_builder.notebook.model.judging import Remedy
from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text

_ON_A_LINE = frozenset({"is_", "tool", "with_", "by", "because", "note", "source"})
"""What fits on the line of a setting; a limit that says more gets a gauge line."""


def named(view: ProcedureView, group: Mapping[Text, Several[Limit]], here: Step | None) -> list[Block]:
    """Every limit of a group on a gauge line of its own."""
    return [block for name, limits in group.items() for nth, limit in enumerate(limits)
            for block in gauge(view, str(name), limit, here, _anchor(view, name, here, nth))]


def settings(view: ProcedureView, group: Mapping[Text, Several[Limit]], here: Step | None) -> list[Block]:
    """Plain settings as a list with their reasons; those with more to say on gauge lines."""
    items: list[Item] = []
    blocks: list[Block] = []
    for name, limits in group.items():
        for nth, limit in enumerate(limits):
            anchor = _anchor(view, name, here, nth)
            if is_simple(limit):
                items.append(_item(view, name, limit, anchor))
            else:
                blocks += gauge(view, str(name), limit, here, anchor)
    return [Settings(items=tuple(items)), *blocks] if items else blocks


def is_simple(limit: Limit) -> bool:
    """Whether a limit is a value with at most a reason, a tool, a note: nothing is checked, nothing follows."""
    said = {key for key in limit.model_fields_set if getattr(limit, key, None)} - {"at", "asked", "for_"}
    if said - _ON_A_LINE or limit.asked:
        return False
    if isinstance(limit.is_, Table):
        return is_short(limit)
    return limit.written is not None


def _item(view: ProcedureView, name: Text, limit: Limit, anchor: str) -> Item:
    tail: list[Markup] = []
    if isinstance(limit.is_, Table):
        shown = short_table(view, limit)
    else:
        value = limit_worth(view, limit)
        shown, tail = value.inline, list(value.lines)
    tail += _tools(view, limit)
    return Item(lead=in_words.capital(view.words(name)), words=shown, reasons=view.reasons(limit),
                only=view.only(limit), anchor=anchor, tail=(*tail, *view.tail(limit)))


def condition(view: ProcedureView, name: Text, limit: Limit) -> Markup:
    """A plain condition as one entry of the list of what to lay ready."""
    item = _item(view, name, limit, "")
    extra = [*(filled("<i>because</i> {}", r) for r in item.reasons), *item.tail]
    line = filled("{} {}", item.lead, item.words)
    if extra:
        line = filled('{} <span class="bl-aside">{}</span>', line, Markup(" ").join(extra))
    return meant(item.only, line)


def _anchor(view: ProcedureView, name: str, here: Step | None, nth: int) -> str:
    step = view.book.anchor(here) if here is not None else "whole"
    return f"{step}-{token(str(name))}" + (f"-{nth + 1}" if nth else "")


# --- the gauge line ---------------------------------------------------------------------------------------


def gauge(view: ProcedureView, name: str, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    """A limit on one line: what it is, how it is looked at, and what to do on either side."""
    what = in_words.capital(view.words(name))
    if isinstance(limit.is_, Table):
        return _read_from_table(view, what, limit, here, anchor)
    value = limit_worth(view, limit)
    low, good, high = _line(view, limit, here)
    line = Gauge(what=what, value=value.main, other=value.other, how=_how(view, limit, here, value), low=low,
                 good=good, high=high, anchor=anchor, reasons=view.reasons(limit), only=view.only(limit))
    return [line, *_shown(view, limit)]


def _read_from_table(view: ProcedureView, what: Markup, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    low = Side(Markup("Below its figure"), remedies(view, limit.below, here)) if limit.below else None
    high = Side(Markup("Above its figure"), remedies(view, limit.above, here)) if limit.above else None
    good = Side(Markup("At the figure of the table"), Markup("Go on.")) if low or high else None
    value = Worth(Markup("by the table"))
    line = Gauge(what=what, value=value.main, how=_how(view, limit, here, value), low=low, good=good, high=high,
                 anchor=anchor, reasons=view.reasons(limit), only=view.only(limit))
    return [line, table(view, limit, here), *_shown(view, limit)]


def _shown(view: ProcedureView, limit: Limit) -> list[Block]:
    blocks: list[Block] = []
    for check in limit.check:
        found = pictures(view, check.pictures)
        blocks += [found] if found is not None else []
        blocks += grades(view, check)
    return blocks


def _line(view: ProcedureView, limit: Limit, here: Step | None) -> tuple[Side | None, Side | None, Side | None]:
    """The three parts of the line, where there is anything to do on either side or somebody looks."""
    written = limit.written
    if written is None or not (limit.below or limit.above or limit.check):
        return None, None, None
    words = sides(view, written, view.place(limit))
    low = _side(view, words.low, limit.below, here, limit, "below")
    high = _side(view, words.high, limit.above, here, limit, "above")
    if low is None and high is None:
        return None, None, None
    good = words.good or Markup("As it should be")
    return low, Side(good, Markup("Go on.")), high


def _side(
    view: ProcedureView, words: Markup, found: Sequence[Remedy], here: Step | None, limit: Limit, key: str
) -> Side | None:
    if found:
        return Side(words or Markup("Too little" if key == "below" else "Too much"), remedies(view, found, here))
    if not words or limit.guide == "yes":
        return None
    if limit.written is not None and asked_end(limit.written.value, "low" if key == "below" else "high"):
        return Side(words, Markup(""))
    return Side(words, in_words.capital(view.untold("what then is not told yet", limit.at)))


def _how(view: ProcedureView, limit: Limit, here: Step | None, value: Worth) -> tuple[Markup, ...]:
    lines: list[Markup] = list(value.lines)
    by = _tools(view, limit)
    for check in limit.check:
        by += [view.meant(check, line) for line in check_lines(view, check, here)]
    lines += [Markup(" ").join(by)] if by else []
    if limit.sum:
        lines.append(_sum(view, limit))
    lines += shifted(view, limit)
    if limit.guide == "yes":
        lines.append(Markup("A guide: it shows where one is heading and condemns nothing."))
    lines += doubts(view, limit)
    if limit.unless is not None:
        lines.append(exemption(view, limit.unless))
    lines += view.tail(limit, told=("because", "is"))
    return tuple(lines)


def _tools(view: ProcedureView, limit: Limit) -> list[Markup]:
    lines = []
    if limit.with_:
        lines.append(filled("Measured with {}.", in_words.listed(view.things(map(str, limit.with_)))))
    if limit.tool is not None and str(limit.tool) != view.only_machine:
        lines.append(filled("On {}.", view.things([str(limit.tool)])[0]))
    return lines


def _sum(view: ProcedureView, limit: Limit) -> Markup:
    """``It is the bore of the eye minus the pivot``; ``It is the first coat plus the second coat``."""
    told = Markup("")
    for text in limit.sum:
        name = str(text).removeprefix("minus ").strip()
        found = view.references.values(name, view.place(limit))
        shown = value_link(view, name, found[0]) if found else escape(name)
        sign = "minus" if str(text).startswith("minus ") else "plus"
        told = filled("{} {} {}", told, sign, shown) if told or sign == "minus" else shown
    return filled("It is {}.", told.strip())


# --- time ---------------------------------------------------------------------------------------------------


def windows(view: ProcedureView, group: Mapping[Text, Several[Window]], here: Step | None) -> list[Block]:
    """The time between two moments: too early, in time, missed."""
    return [block for name, found in group.items() for nth, window in enumerate(found)
            for block in _window(view, str(name), window, here, _anchor(view, name, here, nth))]


def _window(view: ProcedureView, name: str, window: Window, here: Step | None, anchor: str) -> list[Block]:
    what = filled("<b>{}</b>, {}", in_words.capital(view.words(name)), _counted(view, window, here))
    return _time_line(view, what, window, here, anchor)


def _counted(view: ProcedureView, window: Window, here: Step | None) -> Markup:
    start = in_words.listed(map(view.moment, window.after)) if window.after else \
        view.untold("from when is not told yet", window.at)
    end = Markup("the start of this step") if here is not None else Markup("the end")
    if window.before is not None:
        end = view.moment(window.before)
    return filled("counted from {} to {}", start, end)


def waits(view: ProcedureView, found: Sequence[Limit], here: Step | None) -> list[Block]:
    """Standing time from the end of this to the start of the next."""
    what = Markup("<b>Let it stand</b>, from the end of this step to the start of the next")
    if here is None:
        what = Markup("<b>Let it stand</b>, from the end of this work to the start of the next")
    return [block for limit in found for block in _time_line(view, what, limit, here, "")]


def _time_line(view: ProcedureView, what: Markup, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    value = Worth(Markup("by the table")) if isinstance(limit.is_, Table) else limit_worth(view, limit)
    early = late = good = None
    if isinstance(limit.is_, Table):
        early = Side(Markup("Earlier"), _early(view, limit, here)) if limit.below else None
        late = Side(Markup("Later"), _late(view, limit, here)) if limit.above else None
        good = Side(Markup("Inside the times of the table"), Markup("In time."))
    elif limit.written is not None:
        words = sides(view, limit.written, view.place(limit), of_time=True)
        early = Side(words.low, _early(view, limit, here)) if words.low else None
        late = Side(words.high, _late(view, limit, here)) if words.high else None
        good = Side(words.good, Markup("In time.")) if words.good else None
    line = Gauge(what=what, value=value.main, other=value.other, how=_how(view, limit, here, value), low=early,
                 good=good if early or late else None, high=late, anchor=anchor, reasons=view.reasons(limit),
                 only=view.only(limit), of_time=True)
    shown = [table(view, limit, here)] if isinstance(limit.is_, Table) else []
    return [line, *shown, *_shown(view, limit)]


def _early(view: ProcedureView, limit: Limit, here: Step | None) -> Markup:
    return _led(Markup("Too early."), remedies(view, limit.below, here))


def _late(view: ProcedureView, limit: Limit, here: Step | None) -> Markup:
    if limit.above:
        return _led(Markup("Missed."), remedies(view, limit.above, here))
    if limit.written is not None and asked_end(limit.written.value, "high"):
        return Markup("")
    return filled("Missed. {}", in_words.capital(view.untold("what then is not told yet", limit.at)))


def _led(lead: Markup, then: Markup) -> Markup:
    plain = Markup(then).striptags().lower()
    return then if plain.startswith(("too ", "missed")) else filled("{} {}", lead, then)
