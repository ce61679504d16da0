"""What the plan of the season asks of one person or one machine, week by week."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.site import SEASON
from site_builder.plans.in_hand import machine_loads, plan_in_hand
from site_builder.plans.weeks import hours_of, monday, stints_of, weeks_of
from site_builder.views.dates import dated_day
from site_builder.views.prose import Prose, Ref, linked, listed, say


class OwnWeeks(NamedTuple):
    """A row a week, and where the whole plan is shown."""

    rows: tuple[tuple[Prose | str, ...], ...]
    plan: Prose


def weeks_of_person(context: PageContext, person: str) -> OwnWeeks | None:
    """The weeks of a person that are not past: how many hours, and which work; None where nothing is planned."""
    season = plan_in_hand(context.book.analysis)
    if season is None:
        return None

    def rows() -> Iterator[tuple[Prose | str, ...]]:
        for week in weeks_of(season):
            stints = stints_of(season, week, person)
            if stints and week >= monday(context.book.analysis.today):
                works = listed(context.link("procedure", id_) for id_ in dict.fromkeys(str(one.does) for one in stints))
                yield dated_day(week), hours_told(sum(map(hours_of, stints))), works

    found = tuple(rows())
    by_day = say("By the plan of {}; {}.", linked("the season", Ref("chapter", SEASON)),
                 context.link("weeks", person, "day by day"))
    return OwnWeeks(found, by_day) if found else None


def weeks_of_machine(context: PageContext, machine: str) -> OwnWeeks | None:
    """The weeks in which the plan needs a machine, and for how many hours; None where it never does."""
    nb, season = context.book.notebook, plan_in_hand(context.book.analysis)
    if season is None:
        return None
    this = monday(context.book.analysis.today)
    found = tuple((dated_day(week), hours_told(hours)) for week, hours in machine_loads(nb, season, machine).items()
                  if week >= this)
    return OwnWeeks(found, _plan()) if found else None


def hours_told(hours: float) -> str:
    """``22 h``."""
    return f"{hours:.0f} h" if hours >= 1 else "under an hour"


def _plan() -> Prose:
    return say("By the plan of {}.", linked("the season", Ref("chapter", SEASON)))
