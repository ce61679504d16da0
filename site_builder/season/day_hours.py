"""The next days of a plan by the quarter hour: when on the day each stint begins, and at which machine."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.season.by_the_hour import Lag, Schedule, Task, schedule
from site_builder.season.engine import Effort
from site_builder.season.problem import Plan, Problem, Stint

STEP = 900
"""Seconds of a step: a quarter of an hour."""


@dataclass(frozen=True, slots=True)
class Hour:
    """A stint with its first and last quarter hour of the day, counted from 0 at the beginning of work."""

    stint: Stint
    first: int
    end: int


def by_the_quarter(
    problem: Problem, plan: Plan, day: int, machines: Mapping[str, int], whole_day: int, effort: Effort
) -> tuple[Hour, ...] | None:
    """The stints of a day in order, or None where they do not fit into it as they are.

    ``machines`` is how many there are of each; ``whole_day`` the quarter hours between opening and closing. Nobody is
    at two things at once, a second pair of hands is there from beginning to end; between two works of one day lies what
    must stand and no more than may stand. Raises ``EngineMissing``.
    """
    here = [stint for stint in plan if stint.day == day and stint.person and stint.leads]
    if not here:
        return ()
    helpers = {stint.work: [one for one in plan if one.day == day and one.work == stint.work and not one.leads]
               for stint in here}
    tasks, capacity = [], {f"machine {id_}": count for id_, count in machines.items()}
    for number, stint in enumerate(here):
        people = [stint.person, *(one.person for one in helpers[stint.work])]
        needs = {f"person {person}": 1 for person in people}
        needs |= {f"machine {id_}": 1 for id_ in problem.work(stint.work).machines if id_ in machines}
        capacity |= {f"person {person}": 1 for person in people}
        tasks.append(Task(str(number), -(-stint.seconds // STEP), needs))
    lags = []
    for a, first in enumerate(here):
        for b, then in enumerate(here):
            for link in problem.links:
                if link.before == first.work and link.after == then.work and link.least == 0:
                    least, most = link.stands
                    lags.append(Lag(str(a), str(b), tasks[a].length - (-least // STEP)))
                    if most is not None:
                        lags.append(Lag(str(b), str(a), -tasks[a].length - most // STEP))
    found = schedule(Schedule(tuple(tasks), tuple(lags), capacity, until=whole_day), effort)
    if not found.starts:
        return None
    hours = []
    for number, stint in enumerate(here):
        begun, end = found.starts[str(number)], found.ends[str(number)]
        hours.append(Hour(stint, begun, end))
        hours += [Hour(one, begun, end) for one in helpers[stint.work]]
    return tuple(sorted(hours, key=lambda hour: (hour.stint.person, hour.first)))
