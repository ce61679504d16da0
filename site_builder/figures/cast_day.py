"""How many castings a working day gives, from the time of one."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.batch.leg import leg_of
from site_builder.figures.batch_orders import calendar_of
from site_builder.figures.batch_words import NO_BREAK, working_week
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, guarded
from site_builder.figures.metals import cast_by
from site_builder.formulas.casting_rate import COMMON_DAY, casts_in
from site_builder.notebook.model.procedure import Procedure

_SOURCE = ("batch time, Groover, Automation, Production Systems and Computer-Integrated Manufacturing, chapter 3; "
           f"about {COMMON_DAY} a day from one permanent mould by hand is common practice")
_HOUR = 3600.0


def day_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of casts a day, on the page of each procedure that pours."""
    told: set[str] = set()
    for casts in cast_by(known).values():
        for own, _ in casts:
            id_ = str(own.procedure)
            if id_ in told:
                continue
            told.add(id_)
            each = _time_of_one(known, own)
            if each is None:
                yield Missing("procedure", id_, "How many castings a day gives.",
                              "time: {setup: 30 min, each: about 5 min}", own.at)
            elif each.unit.kind in ("time", "time per count"):
                before = list(_before(known, own))
                yield from guarded(partial(_day, known, own, each, before),
                                   [each.input, *(given.input for given in before)])


def _day(known: FigureInputs, own: Procedure, each: Given, before: list[Given]) -> Iterator[Figure]:
    calendar = calendar_of(known.notebook, None)
    hours, _, told = working_week(calendar)
    working = float(hours) * _HOUR
    ends = sorted((
        casts_in(working, each.span.high, sum(given.span.high for given in before)),
        casts_in(working, each.span.low, sum(given.span.low for given in before)),
    ))
    least, most = ends
    day = f"{float(hours):g}{NO_BREAK}h"
    count = str(most) if least == most else f"{least} to {most}"
    ready = f", {_span(sum(given.span.middle for given in before))} of it for getting ready," if before else ""
    sentence = (f"A day of {day}{ready} gives at most {count} castings from one mould; by hand about {COMMON_DAY} are "
                "common.")
    at = calendar.at if calendar is not None and told else None
    inputs = (each.input, *(given.input for given in before),
              Input("working day", day if told else f"assumed: {day}", at=at))
    yield Figure("procedure", str(own.procedure), sentence, inputs, "casts a day", _SOURCE,
                 "Rests are not in it, nor pieces thrown back to warm the mould, nor a melt that nobody stands at.")


def _time_of_one(known: FigureInputs, own: Procedure) -> Given | None:
    told = (given_here(known, time.each, "time for one", "procedure", str(own.procedure))
            for time in own.time if time.each is not None)
    return next((given for given in told if given is not None), None)


def _before(known: FigureInputs, own: Procedure) -> Iterator[Given]:
    """Getting ready: the procedure's own, and the shared work done at the start."""
    for time in own.time:
        if time.setup is not None:
            given = given_here(known, time.setup, "set-up", "procedure", str(own.procedure))
            if given is not None and given.unit.kind == "time":
                yield given
    for run in leg_of(known.notebook, known.reckoning, str(own.procedure), {}).runs:
        shared = known.notebook.procedures[run.procedure]
        if not run.at_start:
            continue
        for time in shared.time:
            leaf = time.lot or time.load or time.each
            given = given_here(known, leaf, str(shared.title), "procedure", str(shared.procedure)) if leaf else None
            if given is not None and given.unit.kind == "time":
                yield given
                break


def _span(seconds: float) -> str:
    hours, minutes = divmod(round(seconds / 60), 60)
    parts = [f"{hours}{NO_BREAK}h"] if hours else []
    parts += [f"{minutes}{NO_BREAK}min"] if minutes else []
    return " ".join(parts)
