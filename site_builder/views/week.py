"""The weeks of a kept plan as they are lived: who does what on which day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from site_builder.notebook.model.season import Season
from site_builder.plans.weeks import day_of, hours_of, monday, pieces_of, stints_of, week_of, weeks_of
from site_builder.views.dates import short_day
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, say

_NO_BREAK = "\u00a0"
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DaysOfOne = tuple[tuple[str, tuple[Prose, ...]], ...]
"""(day, what is done on it) of one person in one week."""


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """The week of a Monday until a Sunday: (name, days) of everybody who has something to do."""

    monday: date
    sunday: date
    people: tuple[tuple[str, DaysOfOne], ...]


@dataclass(frozen=True, slots=True)
class OwnWeek:
    """A week of one person: its Monday, the hours of all that is planned, and the days."""

    monday: date
    hours: float
    days: DaysOfOne


def week_sheet(view: NotebookView, season: Season) -> WeekSheet | None:
    """This week, or the first that is still to come; None where nothing more is planned."""
    week = week_of(season, view.analysis.today)
    if week is None:
        return None
    people = ((str(person.name), _days(view, season, week, id_)) for id_, person in view.notebook.people.items())
    return WeekSheet(week, week + timedelta(days=6), tuple((name, days) for name, days in people if days))


def weeks_to_come(view: NotebookView, season: Season, person: str) -> Iterator[OwnWeek]:
    """The weeks of a person, from this one on, in which something is planned."""
    for week in weeks_of(season):
        stints = stints_of(season, week, person)
        if stints and week >= monday(view.analysis.today):
            yield OwnWeek(week, sum(map(hours_of, stints)), _days(view, season, week, person))


def _days(view: NotebookView, season: Season, week: date, person: str) -> DaysOfOne:
    days: dict[date, list[Prose]] = {}
    for stint in stints_of(season, week, person):
        many = f"{pieces_of(stint)} " if pieces_of(stint) else "second pair of hands, "
        time = str(stint.time or "").replace(" ", _NO_BREAK)
        days.setdefault(day_of(stint), []).append(say("{}{}, {}", many, view.link("procedure", str(stint.does)), time))
    return tuple((f"{_DAYS[day.weekday()]} {short_day(day)}", tuple(lines)) for day, lines in days.items())
