"""One week of a kept plan for the wall: who does what on which day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from site_builder.notebook.model.season import Season
from site_builder.plans.weeks import day_of, pieces_of, stints_of, week_of
from site_builder.views.dates import short_day
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, say

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True, slots=True)
class WeekSheet:
    """The week of a Monday until a Sunday: (name, (day, lines)) of everybody who has something to do."""

    monday: date
    sunday: date
    people: tuple[tuple[str, tuple[tuple[str, tuple[Prose, ...]], ...]], ...]


def week_sheet(view: NotebookView, season: Season) -> WeekSheet | None:
    """This week, or the first that is still to come; None where nothing more is planned."""
    week = week_of(season, view.analysis.today)
    if week is None:
        return None
    people = []
    for id_, person in view.notebook.people.items():
        days: dict[date, list[Prose]] = {}
        for stint in stints_of(season, week, id_):
            many = f"{pieces_of(stint)} " if pieces_of(stint) else "second pair of hands, "
            days.setdefault(day_of(stint), []).append(
                say("{}{}, {}", many, view.link("procedure", str(stint.does)), str(stint.time or "")))
        if days:
            people.append((str(person.name), tuple((f"{_DAYS[day.weekday()]} {short_day(day)}", tuple(lines))
                                                   for day, lines in days.items())))
    return WeekSheet(week, week + timedelta(days=6), tuple(people))
