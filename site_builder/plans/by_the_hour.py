"""The next days of a kept plan by the quarter hour: when on each day everybody begins what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from site_builder.batch.span import written_span
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.notebook.model.season import Season
from site_builder.plans.plan_file import read
from site_builder.plans.wanted import wants
from site_builder.season.day_hours import STEP, Hour, by_the_quarter
from site_builder.season.engine import Effort

_EFFORT = Effort(2.0)
"""A day has some dozen stints: most often proven in a fraction of this."""


@dataclass(frozen=True, slots=True)
class DayByHour:
    """A day; ``hours`` is None where what is planned does not fit into it in any order."""

    on: date
    hours: tuple[Hour, ...] | None


def by_the_hour(known: FigureInputs, season: Season, first: date, days: int) -> Iterator[DayByHour]:
    """The days on which something is planned, so many of the calendar from ``first`` on.

    Raises ``CannotPlan``, ``EngineMissing``.
    """
    start = season.starts.value.first if season.starts is not None else None
    wanted = wants(known, str(season.order), start=start,
                   ordered=season.date.value.first if season.date is not None else start)
    plan, _ = read(season, wanted)
    machines = {}
    for machine in wanted.problem.machines:
        count = known.notebook.tools[machine.id].count
        span = written_span(count, "count") if count is not None else None
        machines[machine.id] = max(int(span.least), 1) if span is not None else 1
    at = wanted.days.number(first)
    for day in range(max(at, 0), min(at + days, wanted.problem.days)):
        if any(stint.day == day and stint.person for stint in plan):
            yield DayByHour(wanted.days.on(day), by_the_quarter(
                wanted.problem, plan, day, machines, wanted.days.shop_seconds // STEP, _EFFORT))


def clock(steps: int) -> str:
    """``2:15`` hours after work begins."""
    return f"{steps * STEP // 3_600}:{steps * STEP % 3_600 // 60:02}"
