"""Gauges and upkeep by the calendar: how often, when last and by whom, when next, and what is overdue."""

from __future__ import annotations

from datetime import date

from site_builder.notebook.due import next_due
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.small import Calibration
from site_builder.notebook.model.things import Thing, Upkeep
from site_builder.views.dates import at_date, date_words, dated_day
from site_builder.views.prose import Prose, joined, prose, say, sentences, toned
from site_builder.views.scope import Scope


def in_date(scope: Scope, calibration: Calibration) -> Prose:
    """Until when a gauge may be believed; where no calendar can tell, how often it is checked."""
    due = next_due(calibration.date, calibration.when)
    if due is not None:
        return say("In date until {}.", dated_day(due))
    last = f", last {at_date(calibration.date)}" if calibration.date is not None else ""
    return say("Its reading is checked {}{}.", how_often(scope, calibration), last)


def how_often(scope: Scope, one: Calibration | Upkeep) -> Prose:
    """The rhythm, or that it is not told."""
    return scope.cadence(one.when) if one.when is not None else scope.untold("how often is not told yet", one.at)


def due_words(scope: Scope, one: Calibration | Upkeep) -> str:
    """`due on 10 February 2027`, `overdue since 5 December 2026`; empty where the calendar cannot tell."""
    day = next_due(one.date, one.when)
    if day is None:
        return ""
    return f"overdue since {dated_day(day)}" if is_past(scope, day) else f"due on {dated_day(day)}"


def is_past(scope: Scope, day: date) -> bool:
    """Whether a day is over."""
    return day < scope.view.analysis.today


def last_done(scope: Scope, day: Dated | None, who: str | None) -> Prose:
    """``2 March 2026 by Ann``."""
    by = say(" by {}", scope.view.person(str(who))) if who is not None else ""
    return say("{}{}", date_words(day), by) if day is not None else prose("")


def calibration_words(scope: Scope, calibration: Calibration) -> Prose:
    """How often, when last and by whom, when next."""
    due, last = due_words(scope, calibration), last_done(scope, calibration.date, calibration.who)
    told = joined((
        how_often(scope, calibration), say("last on {}", last) if last else "",
        toned("strong", f"{due}: do not measure with it until that is done") if due.startswith("over") else due,
    ), "; ")
    more = (scope.inline_why(calibration), *scope.tail(calibration, told=("because", "when")))
    return scope.meant(calibration, sentences((told, *more)))


def late(scope: Scope, thing: Thing) -> list[str]:
    """What is overdue on a thing, in words: its calibration, and upkeep that has a day."""
    named = [("calibration", thing.calibration)] if thing.calibration is not None else []
    said = [f"{name} {due_words(scope, one)}" for name, one in named if due_words(scope, one).startswith("over")]
    for step in thing.upkeep:
        due = due_words(scope, step)
        if due.startswith("over"):
            said.append(f"{scope.view.plain(step.do or step.use).rstrip('.')}, {due}")
    return said
