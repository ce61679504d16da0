"""Recoat windows laid on the working day: until when a coat may be finished so that somebody is there for the next"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from site_builder.batch.span import Span
from site_builder.figures.batch_words import listed, standing, working_week
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import given_here, guarded
from site_builder.figures.window_drawing import window_drawing
from site_builder.formulas.interval import Interval
from site_builder.formulas.recoat import DAY, good_finishes, working_times
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.shop import Calendar
from site_builder.notebook.model.small import WEEKDAYS
from site_builder.quantity import Bounds

BEGINS = 8 * 3600.0
"""When work begins, where nobody tells: assumed in words."""
_DAYS = 14
_A_MOMENT = 60.0
"""Seconds: a shorter time nobody hits."""
_LONG = 10 * DAY
"""A window longer than this is open on a working day in any case."""
_SOURCE = "the coating maker's data sheet, laid on the shop's own days"
_CAUTION = "The window is that of the maker and moves with the heat of the room. Holidays are not in it."


@dataclass(frozen=True, slots=True)
class Laid:
    """A window on one kind of day: when on it a coat may be finished, and when work begins and ends."""

    day: str
    """``on a day before a working day``."""
    good: tuple[Interval, ...]
    work: Interval

    @property
    def all_day(self) -> bool:
        """Whether it may be finished at any time of the work"""
        return len(self.good) == 1 and self.good[0].low <= self.work.low and self.good[0].high >= self.work.high


def recoat_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of recoat windows: each window and wait for the next coat that has both its ends."""
    calendar = known.notebook.shop.calendar if known.notebook.shop is not None else None
    for kind in (Window, Limit):
        for limit, place in known.index.of(kind):
            if place.procedure is None or not _is_recoat(limit, place):
                continue
            for rows, cell in limit.cells():
                written = cell.written
                found = known.reckoning.bounds(written) if written is not None else None
                if written is None or found is None or found.kind != "time" or found.low is None or found.high is None:
                    continue
                if 0 <= float(found.low) <= float(found.high) <= _LONG:
                    given = given_here(known, written, _name(place), "procedure", place.owner_id, place.step)
                    inputs = [given.input] if given is not None else []
                    row = ", ".join(map(str, rows))
                    yield from guarded(partial(_said, calendar, place, (written, found), row), inputs)


def _is_recoat(limit: Limit, place: Place) -> bool:
    if place.key == "windows" and isinstance(limit, Window):
        return "coat" in str(place.name).lower()
    return place.key == "wait" and limit.written is not None and str(limit.written).endswith("recoat")


def _name(place: Place) -> str:
    return str(place.name) if place.name is not None else "recoat"


def laid_on_days(calendar: Calendar | None, window: Interval) -> tuple[Laid, ...]:
    """The window on a day before a working day, and on the last day before days off."""
    a_day, _, _ = working_week(calendar)
    days = frozenset(map(str, calendar.days)) if calendar is not None and calendar.days else frozenset(WEEKDAYS[:5])
    closes = min(BEGINS + float(a_day) * 3600, DAY)
    found: list[Laid] = []
    for what, wanted in (("before a working day", True), ("before days off", False)):
        first = next((n for n, day in enumerate(WEEKDAYS) if day in days
                      and (WEEKDAYS[(n + 1) % 7] in days) == wanted), None)
        if first is None:
            continue
        closed = [n for n in range(_DAYS) if WEEKDAYS[(first + n) % 7] not in days]
        working = working_times(BEGINS, closes, _DAYS, closed)
        good = tuple(span for span in good_finishes([window], working) if span.high - span.low >= _A_MOMENT)
        found.append(Laid(what, good, working[0]))
    if len(found) == 2 and found[0].good == found[1].good:
        return (Laid("on any day", found[0].good, found[0].work),)
    return tuple(found)


def _said(
    calendar: Calendar | None, place: Place, told: tuple[Written, Bounds], row: str
) -> Iterator[Figure]:
    written, found = told
    window = Interval(float(found.low or 0), float(found.high or 0))
    laid = laid_on_days(calendar, window)
    name = f"“{_name(place)}”" + (f", {row}," if row else "")
    lapse = standing(Span(found.low or Fraction(0), found.high or Fraction(0)))
    work = laid[0].work if laid else Interval(BEGINS, BEGINS)
    sentence = (f"By {name} the next coat follows after {lapse}. With work from {clock(work.low)} to "
                f"{clock(work.high)}: {'; '.join(_on_a_day(one) for one in laid)}.")
    a_day, _, hours_told = working_week(calendar)
    at = calendar.at if calendar is not None and hours_told else None
    inputs = (
        Input(_name(place), str(written), "procedure", place.owner_id, place.step, written.at),
        Input("work begins", f"assumed: {clock(BEGINS)}"),
        Input("working day", f"{float(a_day):g} h" if hours_told else f"assumed: {float(a_day):g} h", at=at),
    )
    yield Figure("procedure", place.owner_id, sentence, inputs, "window laid on the working day", _SOURCE, _CAUTION,
                 place.step, window_drawing([(one.day, one.good, one.work) for one in laid], clock))


def _on_a_day(one: Laid) -> str:
    if one.all_day:
        return f"{one.day} a coat may be finished at any time of the work"
    if not one.good:
        return f"{one.day} finish none, as its window opens and closes with nobody there"
    spans = listed((_span(span, one.work) for span in one.good), "or")
    return f"{one.day} finish a coat {spans}, else the window closes before anybody is there for the next"


def _span(span: Interval, work: Interval) -> str:
    low, high = clock(span.low), clock(span.high)
    if span.low <= work.low:
        return f"by {high}"
    return f"from {low} on" if span.high >= work.high else f"from {low} to {high}"


def clock(seconds: float) -> str:
    """``13:00``."""
    minutes = round(seconds / 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
