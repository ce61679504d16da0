"""An order of teaching that brings every skill to as many holders as the shop wants, the riskiest first.

Skills with fewest holders come first, among them the riskiest. That order is kept: no lesson for a later aim takes
an hour from an earlier one. What is searched for is who learns it and from whom, so that the first aim is reached as
early as can be, then the second as early as that allows, and so on.

The search goes aim by aim and keeps every timetable that is still among the best; two of them that differ only in
the names of people who are alike in all that is still to come count once. While they can all be kept, the result is
the best there is (`Goal.proven`). Where there are more than `KEPT`, those with least teaching and the most even load
are followed: then a later aim may be reached later than it could be, but never before `Goal.earliest`, the week in
which it would be reached if nothing else were taught at all.

A solver was considered and left out: a shop of five people and fifteen skills is done exactly in a fraction of a
second, and a compiled solver would weigh more than everything else the house stands on.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from itertools import product

from site_builder.skills.timetable import ALONE, Lesson, School, Timetable

KEPT = 96
"""So many equally good timetables are followed at once."""
_PLACED = 12_000
"""So many lessons are tried on the way; larger shops follow fewer timetables."""
_TEACHERS = 32
"""So many ways to share the teachers among a lesson and what it needs first are tried."""


@dataclass(frozen=True, slots=True)
class Goal:
    """One aim: the skill with its ``holder``-th holder, and the week in which that is reached, None if never.

    ``earliest``: no plan reaches it before this week. ``proven``: no plan that kept the order reaches it earlier
    without reaching an earlier aim later.
    """

    skill: str
    holder: int
    week: int | None
    earliest: int | None
    proven: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """The lessons in the order in which they take their hours, and the aims."""

    lessons: tuple[Lesson, ...]
    goals: tuple[Goal, ...]

    @property
    def proven(self) -> bool:
        """Whether this is the best plan there is."""
        return all(goal.proven for goal in self.goals)


class Bar(StrEnum):
    """Why somebody cannot be brought to hold a skill."""

    NO_TEACHER = "nobody may teach it"
    NEED_NO_TEACHER = "nobody may teach what it needs first"
    CIRCLE = "what it needs first needs it in turn"
    AGE = "too young, or not known to be old enough"
    NO_HOURS = "no hours for lessons"
    TOO_LONG = "not within the time that is looked ahead"


def plan(school: School) -> Plan:
    """The best order of teaching; the same for the same school, always."""
    aims = aims_of(school)
    nothing = Timetable(school)
    best, goals, exact = [nothing], [], True
    kept = max(1, min(KEPT, _PLACED // max(1, len(aims) * len(school.room))))
    for number, (skill, holder) in enumerate(aims):
        week, found, all_tried = _further(best, skill, holder)
        exact = exact and all_tried
        goals.append(Goal(skill, holder, week, _earliest(nothing, skill), exact))
        best = _alike_once(found, school, aims[number + 1 :]) if kept > 1 else found
        if len(best) > kept:
            best, exact = sorted(best, key=_effort)[:kept], False
    return Plan(min(best, key=_effort).lessons, tuple(goals))


def aims_of(school: School) -> list[tuple[str, int]]:
    """(skill, holder) of all that is wanting: first holders before second ones, each time the riskiest skill first."""
    return [
        (skill, holder) for holder in range(1, school.wanted + 1)
        for skill in school.order if school.holders(skill) < holder
    ]


def bars(school: School, skill: str) -> dict[str, Bar]:
    """Of everybody who does not hold a skill, what bars the way to it; who could learn it is left out."""
    found = {}
    for person in school.room:
        if school.rank(person, skill) < ALONE:
            bar = _bar(school, skill, person)
            if bar is not None:
                found[person] = bar
    return found


# ------------------------------------------------------------------ the search


def _further(timetables: list[Timetable], skill: str, holder: int) -> tuple[int | None, list[Timetable], bool]:
    """All the earliest ways on to one more aim: its week, the timetables, and whether every way was tried."""
    best: int | None = None
    found: list[Timetable] = []
    exact = True
    for before in timetables:
        already = before.holders(skill)[holder - before.school.holders(skill) - 1 :]
        if already:  # learned on the way to something else
            best, found = _better(best, found, already[0], before)
            continue
        ways, all_ways = _ways(before, skill)
        exact = exact and all_ways
        for bound, way in ways:
            if best is not None and bound > best:
                break
            after = before.copy()
            week = _walk(after, way)
            if week is not None:
                best, found = _better(best, found, week, after)
    return (best, found, exact) if found else (None, timetables, exact)


def _better(best: int | None, found: list[Timetable], week: int, after: Timetable) -> tuple[int, list[Timetable]]:
    if best is None or week < best:
        return week, [after]
    return best, [*found, after] if week == best else found


Way = tuple[tuple[str, str, str, int], ...]
"""Lessons in order: (teacher, learner, skill, rank)."""


def _ways(timetable: Timetable, skill: str) -> tuple[list[tuple[int, Way]], bool]:
    """Everybody who could learn a skill, from everybody who may teach it and what it needs first.

    Each with a week before which it cannot be reached, the least first; and whether these are all ways.
    """
    school, found, all_ways = timetable.school, [], True
    for learner in school.room:
        chain = chain_to(timetable, learner, skill)
        if not chain:
            continue
        teachers = [sorted(school.subjects[one].teachers - {learner}) for one, _ in chain]
        choices = 1
        for group in teachers:
            choices *= len(group)
        if choices > _TEACHERS:
            teachers, all_ways = [_freest(timetable, group) for group in teachers[:-1]] + teachers[-1:], False
        for choice in product(*teachers):
            way = tuple((teacher, learner, one, rank) for teacher, (one, rank) in zip(choice, chain, strict=True))
            bound = _bound(timetable, way)
            if bound is not None:
                found.append((bound, way))
    return sorted(found), all_ways


def _bound(timetable: Timetable, way: Way) -> int | None:
    """A week before which a way cannot be gone to its end; None where it surely cannot."""
    if len(way) == 1:
        return timetable.earliest(*way[0])
    return timetable.earliest_of_all(way[0][1], sum(timetable.minutes(*lesson[1:]) for lesson in way))


def _earliest(nothing: Timetable, skill: str) -> int | None:
    """The week before which a skill gets no further holder, whatever is taught besides.

    Every lesson on the way has all hours to itself, and only waits for what it needs; but no learner has learned
    more minutes than there are until then.
    """
    best: int | None = None
    for learner in nothing.school.room:
        chain = chain_to(nothing, learner, skill)
        total = sum(nothing.minutes(learner, *lesson) for lesson in chain)
        least = nothing.full(learner, total) if chain else None
        if least is None or (best is not None and least >= best):
            continue
        now: Timetable | None = nothing
        for one, rank in chain:
            now = _soonest(now, learner, one, rank) if now is not None else None
        if now is not None:
            week = max(least, now.lessons[-1].signed)
            best = week if best is None else min(best, week)
    return best


def _soonest(before: Timetable, learner: str, skill: str, rank: int) -> Timetable | None:
    """One more lesson as if it were the only one, from the teacher with whom it is over first."""
    found: list[tuple[int, str, Timetable]] = []
    for teacher in sorted(before.school.subjects[skill].teachers - {learner}):
        after = before.emptied()
        week = after.place(teacher, learner, skill, rank)
        if week is not None:
            found.append((week, teacher, after))
    return min(found, key=lambda one: one[:2])[2] if found else None


def _freest(timetable: Timetable, teachers: list[str]) -> list[str]:
    """Of many teachers for what comes before, the one who has given fewest minutes."""
    given = {teacher: sum(one.minutes for one in timetable.lessons if one.teacher == teacher) for teacher in teachers}
    return sorted(teachers, key=lambda teacher: (given[teacher], teacher))[:1]


def _walk(timetable: Timetable, way: Way) -> int | None:
    week: int | None = None
    for teacher, learner, skill, rank in way:
        week = timetable.place(teacher, learner, skill, rank)
        if week is None:
            return None
    return week


def chain_to(timetable: Timetable, learner: str, skill: str) -> list[tuple[str, int]]:
    """(skill, rank) of every lesson a learner wants before and with this skill; none where there is no way.

    What a skill needs comes before it, in the order in which it is written.
    """
    chain: dict[tuple[str, int], None] = {}

    def want(one: str, rank: int, above: frozenset[str]) -> bool:
        if timetable.rank(learner, one) >= rank or (one, rank) in chain:
            return True
        subject = timetable.school.subjects.get(one)
        if subject is None or one in above or not subject.teachers - {learner}:
            return False
        if not all(want(need, least, above | {one}) for need, least in subject.needs):
            return False
        chain[one, rank] = None
        return True

    return list(chain) if want(skill, ALONE, frozenset()) else []


# ------------------------------------------------------------------ which timetables are alike


def _alike_once(timetables: list[Timetable], school: School, aims: list[tuple[str, int]]) -> list[Timetable]:
    """Of timetables that differ only in the names of people alike in all that is to come, the one of least effort."""
    if len(timetables) < 2:
        return timetables
    skills = _with_needs(school, {skill for skill, _ in aims})
    numbers: dict[object, int] = {}
    standing = {
        person: numbers.setdefault(school.standing(person, skills), len(numbers)) for person in school.room
    }
    found: dict[object, Timetable] = {}
    for one in sorted(timetables, key=_effort):
        holders = tuple(tuple(one.holders(skill)) for skill in sorted(skills))
        # whom no lesson has touched is told by the others, since all have the same people
        touched = {person: mark for person in one.touched if (mark := one.mark(person, skills)) is not None}
        marks = Counter((standing[person], mark) for person, mark in touched.items())
        found.setdefault((holders, frozenset(marks.items())), one)
    return list(found.values())


def _with_needs(school: School, skills: set[str]) -> frozenset[str]:
    todo, found = list(skills), set(skills)
    while todo:
        for need, _ in school.subjects[todo.pop()].needs:
            if need in school.subjects and need not in found:
                found.add(need)
                todo.append(need)
    return frozenset(found)


def _effort(timetable: Timetable) -> tuple[object, ...]:
    """Least teaching first, then the most even load; then by name, so that the choice is always the same."""
    load: dict[str, int] = {}
    for lesson in timetable.lessons:
        for person in (lesson.learner, lesson.teacher):
            load[person] = load.get(person, 0) + lesson.minutes
    names = tuple((lesson.learner, lesson.teacher, lesson.skill) for lesson in timetable.lessons)
    return sum(load.values()), max(load.values(), default=0), names


# ------------------------------------------------------------------ what bars the way


def _bar(school: School, skill: str, person: str) -> Bar | None:
    nothing = Timetable(school)
    chain = chain_to(nothing, person, skill)
    if not chain:
        return _no_chain(school, skill, person)
    if any(school.not_before.get((person, one, least), 0) is None for one, rank in chain for least in (2, rank)):
        return Bar.AGE
    if not any(school.room[person]):
        return Bar.NO_HOURS
    reached = [way for _, way in _ways(nothing, skill)[0] if way[0][1] == person
               and _walk(nothing.copy(), way) is not None]
    return None if reached else Bar.TOO_LONG


def _no_chain(school: School, skill: str, person: str) -> Bar:
    """Why there is no chain of lessons to a skill: its own teachers, those of its needs, or a circle."""
    todo, seen = [(skill, ALONE)], set()
    while todo:
        one, least = todo.pop()
        if one not in seen and school.rank(person, one) < least:
            seen.add(one)
            if not school.subjects[one].teachers - {person}:
                return Bar.NO_TEACHER if one == skill else Bar.NEED_NO_TEACHER
            todo += school.subjects[one].needs
    return Bar.CIRCLE
