"""Limits and conditions: one gauge line each, a small table where one is read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from site_builder.notebook.model.judging import Remedy
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text
from site_builder.quantity import Limits, Value
from site_builder.views.anchors import token
from site_builder.views.blocks import Block, Gauge, GaugeSide
from site_builder.views.check import check_lines, grades
from site_builder.views.limit_in_words import doubts, shifted
from site_builder.views.picture import pictures
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, prose, say
from site_builder.views.remedy import exemption, remedies
from site_builder.views.scope import Scope
from site_builder.views.side import asked_end, ends_of, sides
from site_builder.views.table import table
from site_builder.views.value import ShownValue, limit_value, value_link


def named(scope: Scope, group: Mapping[Text, Several[Limit]], here: Step | None) -> list[Block]:
    """Every limit of a group on a gauge line of its own."""
    return [block for name, limits in group.items() for nth, limit in enumerate(limits)
            for block in gauge(scope, str(name), limit, here, anchor_of(scope, name, here, nth))]


def anchor_of(scope: Scope, name: str, here: Step | None, nth: int) -> str:
    if scope.apart:
        return ""
    step = scope.view.anchor(here) if here is not None else "whole"
    return f"{step}-{token(str(name))}" + (f"-{nth + 1}" if nth else "")



def gauge(scope: Scope, name: str, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    """A limit on one line: what it is, how it is looked at, and what to do on either side."""
    what = capital(scope.words(name))
    if isinstance(limit.is_, Table):
        return _read_from_table(scope, what, limit, here, anchor)
    value = limit_value(scope, limit)
    low, good, high = _line(scope, limit, here)
    line = Gauge(what=what, value=value.main, other=value.other, how=how_told(scope, limit, here, value), low=low,
                 good=good, high=high, anchor=anchor, reasons=scope.reasons(limit), only=scope.only(limit),
                ends=ends_of(scope, limit.written, scope.place(limit)))
    return [line, *check_blocks(scope, limit)]


def _read_from_table(scope: Scope, what: Prose, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    low = GaugeSide(prose("Below its figure"), remedies(scope, limit.below, here)) if limit.below else None
    high = GaugeSide(prose("Above its figure"), remedies(scope, limit.above, here)) if limit.above else None
    good = GaugeSide(prose("At the figure of the table"), prose("Go on.")) if low or high else None
    value = ShownValue(prose("by the table"))
    line = Gauge(what=what, value=value.main, how=how_told(scope, limit, here, value), low=low, good=good, high=high,
                 anchor=anchor, reasons=scope.reasons(limit), only=scope.only(limit))
    return [line, table(scope, limit, here), *check_blocks(scope, limit)]


def check_blocks(scope: Scope, limit: Limit) -> list[Block]:
    blocks: list[Block] = []
    for check in limit.check:
        found = pictures(scope, check.pictures)
        blocks += [found] if found is not None else []
        blocks += grades(scope, check)
    return blocks


def _line(scope: Scope, limit: Limit, here: Step | None) -> tuple[GaugeSide | None, GaugeSide | None, GaugeSide | None]:
    """The three parts of the line, where there is anything to do on either side or somebody looks."""
    written = limit.written
    if written is None or not (limit.below or limit.above or limit.check):
        return None, None, None
    words = sides(scope, written, scope.place(limit))
    low = _side(scope, words.low, limit.below, here, limit, "below")
    high = _side(scope, words.high, limit.above, here, limit, "above")
    if low is None and high is None:
        return None, None, None
    good = words.good or prose("Otherwise")
    return low, GaugeSide(good, _go_on(written.value, limit)), high


def _go_on(value: Value, limit: Limit) -> Prose:
    """Between the lines one goes on; where a line is rough, in doubt or not told, that stands there too."""
    if value.perhaps:
        return prose("Go on; the figure is not sure.")
    if asked_end(value, "low") or asked_end(value, "high"):
        return prose("Go on, as far as it is told.")
    return prose("Go on; the line is a rough one." if _is_rough(value, limit) else "Go on.")


def _is_rough(value: Value, limit: Limit) -> bool:
    """Whether a line at which something else is done is rough: ``about 125 °F; max 130 °F`` has a sharp one above."""
    if not isinstance(value.what, Limits):
        return False
    lead = {clause.lead: clause for clause in value.what.clauses}
    low, high = (lead.get("min") or lead.get("over"), lead.get("max") or lead.get("under"))
    if any(clause.rough for clause in lead.values()):
        return True
    return "about" in lead and ((low is None and bool(limit.below)) or (high is None and bool(limit.above))
                                or (low is None and high is None))


def _side(
    scope: Scope, words: Prose, found: Sequence[Remedy], here: Step | None, limit: Limit, key: str
) -> GaugeSide | None:
    if found:
        return GaugeSide(words or prose("Too little" if key == "below" else "Too much"), remedies(scope, found, here))
    if not words or limit.guide == "yes":
        return None
    if limit.written is not None and asked_end(limit.written.value, "low" if key == "below" else "high"):
        return GaugeSide(words, NO_WORDS)
    return GaugeSide(words, capital(scope.untold("what then is not told yet", limit.at)))


def how_told(scope: Scope, limit: Limit, here: Step | None, value: ShownValue) -> tuple[Prose, ...]:
    lines: list[Prose] = list(value.lines)
    by = tools_of(scope, limit)
    for check in limit.check:
        by += [scope.meant(check, line) for line in check_lines(scope, check, here)]
    lines += [joined(by)] if by else []
    if limit.sum:
        lines.append(_sum(scope, limit))
    lines += shifted(scope, limit)
    if limit.guide == "yes":
        judges = limit.below or limit.above or any(check.fails or check.bad for check in limit.check)
        lines.append(prose("A guide: it shows where one is heading." if judges else
                           "A guide: it shows where one is heading and condemns nothing."))
    lines += doubts(scope, limit)
    if limit.unless is not None:
        lines.append(exemption(scope, limit.unless))
    lines += scope.tail(limit, told=("because", "is"))
    return tuple(lines)


def tools_of(scope: Scope, limit: Limit) -> list[Prose]:
    lines = []
    if limit.with_:
        lines.append(say("Measured with {}.", listed(scope.things(map(str, limit.with_)))))
    if limit.tool is not None and str(limit.tool) != scope.only_machine:
        lines.append(say("On {}.", scope.things([str(limit.tool)])[0]))
    return lines


def _sum(scope: Scope, limit: Limit) -> Prose:
    """``It is the bore of the eye minus the pivot``; ``It is the first coat plus the second coat``."""
    told = NO_WORDS
    for text in limit.sum:
        name = str(text).removeprefix("minus ").strip()
        found = scope.references.values(name, scope.place(limit))
        shown = value_link(scope, name, found[0]) if found else prose(name)
        sign = "minus" if str(text).startswith("minus ") else "plus"
        told = joined((told, sign, shown)) if told or sign == "minus" else shown
    return say("It is {}.", told)


