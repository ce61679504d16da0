"""Work by the hour: tasks in sequence, with least and greatest time between them, machines, people by skill, breaks.

Time is in whole steps, say quarter hours. In the words of the field: resource-constrained scheduling with generalised
precedence, several skills and calendars. Source: K. Neumann, C. Schwindt, J. Zimmermann, Project Scheduling with Time
Windows and Scarce Resources, 2nd ed. 2003.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from site_builder.season.engine import Effort, cp_sat
from site_builder.season.search import Answer, Tell, nobody, search


@dataclass(frozen=True, slots=True)
class Task:
    """A task of ``length`` steps that takes so much of each resource and so many people of each skill all through.

    ``within``: spans (first step, end) in one of which it must lie, where it may not cross a break; none: it may
    lie anywhere. With ``crosses`` it rests during breaks and goes on after them.
    """

    id: str
    length: int
    needs: Mapping[str, int] = field(default_factory=dict)
    skills: Mapping[str, int] = field(default_factory=dict)
    within: tuple[tuple[int, int], ...] = ()
    crosses: bool = False


@dataclass(frozen=True, slots=True)
class Lag:
    """``after`` starts at least ``least`` steps after ``before`` starts; negative: ``before`` at most so long after."""

    before: str
    after: str
    least: int


@dataclass(frozen=True, slots=True)
class Schedule:
    """``people`` hold skills; ``away`` are their spans of absence; ``breaks`` are everybody's, in order of time."""

    tasks: tuple[Task, ...]
    lags: tuple[Lag, ...]
    capacity: Mapping[str, int] = field(default_factory=dict)
    people: Mapping[str, frozenset[str]] = field(default_factory=dict)
    away: Mapping[str, tuple[tuple[int, int], ...]] = field(default_factory=dict)
    breaks: tuple[tuple[int, int], ...] = ()
    until: int | None = None


@dataclass(frozen=True, slots=True)
class Scheduled:
    """When each task starts and ends and who is at it, with the answer, the end of the last and its bound."""

    answer: Answer
    starts: Mapping[str, int]
    ends: Mapping[str, int]
    who: Mapping[str, tuple[str, ...]]
    end: int
    bound: int


def schedule(wanted: Schedule, effort: Effort, tell: Tell = nobody) -> Scheduled:
    """The shortest schedule found, proven or not. Raises ``EngineMissing``."""
    return _Model(wanted).solved(effort, tell)


class _Model:
    def __init__(self, wanted: Schedule) -> None:
        self.wanted = wanted
        self.model = cp_sat().CpModel()
        self.until = wanted.until if wanted.until is not None else _enough(wanted)
        self.starts: dict[str, Any] = {}
        self.ends: dict[str, Any] = {}
        self.spans: dict[str, Any] = {}
        self.at: dict[tuple[str, str], list[tuple[str, Any]]] = {}
        for task in wanted.tasks:
            self._task(task)
        for lag in wanted.lags:
            self.model.add(self.starts[lag.after] >= self.starts[lag.before] + lag.least)
        self._resources()
        self._people()
        self.end = self.model.new_int_var(0, self.until, "")
        self.model.add_max_equality(self.end, [*self.ends.values(), 0])
        self.model.minimize(self.end)

    def _task(self, task: Task) -> None:
        model = self.model
        if task.crosses and self.wanted.breaks:
            ends = [_end(first, task.length, self.wanted.breaks) for first in range(self.until + 1)]
            fits = [first for first, end in enumerate(ends) if end <= self.until and not _inside(first, self.wanted)]
            start = model.new_int_var_from_domain(cp_sat().Domain.from_values(fits or [self.until]), "")
            end, size = model.new_int_var(0, self.until, ""), model.new_int_var(0, self.until, "")
            model.add_element(start, [min(one, self.until) for one in ends], end)
            span = model.new_interval_var(start, size, end, "")
        else:
            allowed = task.within or ((0, self.until),)
            ranges = [[first, end - task.length] for first, end in allowed if end - task.length >= first]
            if not ranges:
                model.add_bool_or([])
                ranges = [[0, self.until]]
            start = model.new_int_var_from_domain(cp_sat().Domain.from_intervals(ranges), "")
            end = start + task.length
            span = model.new_fixed_size_interval_var(start, task.length, "")
        self.starts[task.id], self.ends[task.id], self.spans[task.id] = start, end, span

    def _resources(self) -> None:
        for resource, capacity in self.wanted.capacity.items():
            users = [task for task in self.wanted.tasks if task.needs.get(resource)]
            if users:
                self.model.add_cumulative(
                    [self.spans[task.id] for task in users], [task.needs[resource] for task in users], capacity)

    def _people(self) -> None:
        model = self.model
        busy: dict[str, list[Any]] = {person: [] for person in self.wanted.people}
        for task in self.wanted.tasks:
            takes_part: dict[str, list[Any]] = {}
            for skill, count in task.skills.items():
                chosen = []
                for person, held in self.wanted.people.items():
                    if skill in held:
                        one = model.new_bool_var("")
                        chosen.append(one)
                        takes_part.setdefault(person, []).append(one)
                model.add(sum(chosen) == count)
            for person, ones in takes_part.items():
                here = ones[0] if len(ones) == 1 else model.new_bool_var("")
                if len(ones) > 1:
                    model.add(sum(ones) == here)
                start, end = self.starts[task.id], self.ends[task.id]
                busy[person].append(model.new_optional_interval_var(start, end - start, end, here, "")
                                    if task.crosses else
                                    model.new_optional_fixed_size_interval_var(start, task.length, here, ""))
                self.at.setdefault((task.id, ""), []).append((person, here))
        for person, spans in busy.items():
            away = [model.new_fixed_size_interval_var(first, end - first, "")
                    for first, end in self.wanted.away.get(person, ())]
            model.add_no_overlap([*spans, *away])
        # people together suffice: says the same more loosely, and lets the search see it
        for skill in sorted({skill for task in self.wanted.tasks for skill in task.skills}):
            users = [task for task in self.wanted.tasks if task.skills.get(skill)]
            holders = sum(skill in held for held in self.wanted.people.values())
            model.add_cumulative([self.spans[t.id] for t in users], [t.skills[skill] for t in users], holders)
        if self.wanted.people:
            users = [task for task in self.wanted.tasks if task.skills]
            model.add_cumulative([self.spans[t.id] for t in users], [sum(t.skills.values()) for t in users],
                                 len(self.wanted.people))

    def solved(self, effort: Effort, tell: Tell) -> Scheduled:
        found = search(self.model, effort, tell)
        if not found.has_one:
            return Scheduled(found.answer, {}, {}, {}, 0, 0 if found.answer is Answer.NONE else int(found.bound))
        value = found.solver.value
        who = {task: tuple(person for person, here in ones if value(here)) for (task, _), ones in self.at.items()}
        return Scheduled(
            found.answer, {id_: value(one) for id_, one in self.starts.items()},
            {id_: value(one) for id_, one in self.ends.items()}, who, int(found.value), round(found.bound),
        )


def _enough(wanted: Schedule) -> int:
    """A span in which all of it fits one after the other, with every wait."""
    rest = sum(end - first for first, end in wanted.breaks)
    latest = max((end for task in wanted.tasks for _, end in task.within), default=0)
    away = max((end for spans in wanted.away.values() for _, end in spans), default=0)
    work = sum(task.length for task in wanted.tasks) + sum(max(lag.least, 0) for lag in wanted.lags)
    return max(work + rest + away, latest)


def _end(first: int, length: int, breaks: Sequence[tuple[int, int]]) -> int:
    """When a task of this length ends that rests during breaks."""
    end = first + length
    for begin, stop in breaks:
        if first < stop and begin < end:
            end += stop - max(begin, first)
    return end


def _inside(step: int, wanted: Schedule) -> bool:
    """Whether a step lies in a break, where nothing can begin."""
    return any(begin <= step < stop for begin, stop in wanted.breaks)
