"""Published instances with their makespans, as numbers in a form of our own; the source stands beside each.

An activity is its place in the lists. ``lags`` are (from, to, least time from start to start), a negative one says that
``to`` may start at most so long after; ``needs`` are of each resource or, where there are ``people``, of each skill.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from site_builder.season.by_the_hour import Lag, Schedule, Scheduled, Task


@dataclass(frozen=True)
class Published:
    name: str
    family: str
    source: str
    makespan: int | None
    """The published optimum; None where it is published as infeasible."""
    schedule: Schedule


def published() -> tuple[Published, ...]:
    data = json.loads((Path(__file__).parent / "published.json").read_text("utf-8"))
    return tuple(_one(one) for one in data)


def _one(one: dict[str, Any]) -> Published:
    people = one.get("people")
    resources = [f"r{n}" for n in range(len(one["needs"][0]))]
    needs = [{name: count for name, count in zip(resources, row, strict=True) if count} for row in one["needs"]]
    length = one["length"]
    if people is None:
        tasks = tuple(Task(str(n), size, needs[n] if size else {}) for n, size in enumerate(length))
        lags = tuple(Lag(str(a), str(b), least) for a, b, least in one["lags"])
        wanted = Schedule(tasks, lags, dict(zip(resources, one["capacity"], strict=True)))
    else:
        tasks = tuple(Task(str(n), size, skills=needs[n] if size else {}) for n, size in enumerate(length))
        lags = tuple(Lag(str(a - 1), str(b - 1), length[a - 1]) for a, b in one["before"])
        held = {f"p{n}": frozenset(f"r{skill}" for skill in skills) for n, skills in enumerate(people)}
        wanted = Schedule(tasks, lags, people=held)
    makespan = None if one["published"] == "infeasible" else one["published"]
    return Published(one["name"], one["set"], one["source"], makespan, wanted)


def broken(wanted: Schedule, found: Scheduled) -> list[str]:
    """What a schedule breaks, looked up step by step; shares nothing with the model."""
    start, end = found.starts, found.ends
    told = [f"{lag.after} starts too early or too late after {lag.before}" for lag in wanted.lags
            if start[lag.after] < start[lag.before] + lag.least]
    for step in range(found.end):
        now = [task for task in wanted.tasks if start[task.id] <= step < end[task.id]]
        for resource, capacity in wanted.capacity.items():
            if sum(task.needs.get(resource, 0) for task in now) > capacity:
                told.append(f"too much of {resource} at {step}")
        busy = [person for task in now for person in found.who.get(task.id, ())]
        if len(busy) != len(set(busy)):
            told.append(f"somebody twice at {step}")
    for task in wanted.tasks:
        who = found.who.get(task.id, ())
        if len(who) != sum(task.skills.values()) or not _suffice(task, who, wanted):
            told.append(f"{task.id} has the wrong people")
    return told


def _suffice(task: Task, who: tuple[str, ...], wanted: Schedule) -> bool:
    """Whether these people can be matched with the places of the task, each in a skill of theirs."""
    places = [skill for skill, count in task.skills.items() for _ in range(count)]
    taken: dict[int, str] = {}

    def placed(person: str, seen: set[int]) -> bool:
        for n, skill in enumerate(places):
            if skill in wanted.people[person] and n not in seen:
                seen.add(n)
                if n not in taken or placed(taken[n], seen):
                    taken[n] = person
                    return True
        return False

    return all(placed(person, set()) for person in who)
