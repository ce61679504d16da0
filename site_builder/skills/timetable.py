"""A timetable of lessons: each takes its hours from one teacher and one learner, as early as both have any left.

Time goes by weeks, counted from 0; a week holds so many minutes for each person, and no minute is given twice.
What stands earlier in the order takes its minutes first. All numbers are whole, so that the same shop gets the
same timetable on every machine.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

ALONE = 4
"""The rank from which somebody holds a skill: 1 watches, 2 beside, 3 within call, 4 alone, 5 teaches."""
BEHIND = (0, 1, 4, 7, 10, 10)
"""Of ten parts of the teaching until alone, how many lie behind who has reached each rank. An assumption."""
_BESIDE = 2


@dataclass(frozen=True, slots=True)
class Subject:
    """A skill as it is taught: minutes from nothing to alone, what must be held first and how far, who may teach it."""

    minutes: int
    needs: tuple[tuple[str, int], ...] = ()
    teachers: frozenset[str] = frozenset()


@dataclass(frozen=True)
class School:
    """Everything a timetable is made of.

    ``room``: each person's minutes for lessons, week by week; the length is the horizon. ``reached``: the rank of
    (person, skill), 0 if left out. ``not_before``: the week from which (person, skill) may be at a rank at all, None
    for never; where nothing stands, from week 0. ``order``: skills with the riskiest first. ``wanted``: how many
    should hold each.
    """

    room: Mapping[str, tuple[int, ...]]
    subjects: Mapping[str, Subject]
    reached: Mapping[tuple[str, str], int]
    order: tuple[str, ...]
    wanted: int = 2
    not_before: Mapping[tuple[str, str, int], int | None] = field(default_factory=dict)

    def rank(self, person: str, skill: str) -> int:
        """What a person has reached before the first lesson."""
        return self.reached.get((person, skill), 0)

    def standing(self, person: str, skills: frozenset[str]) -> tuple[object, ...]:
        """What a person brings to lessons in these skills."""
        return self.room[person], frozenset(
            (skill, self.rank(person, skill), person in self.subjects[skill].teachers,
             *(self.not_before.get((person, skill, rank), 0) for rank in range(_BESIDE, ALONE + 1)))
            for skill in skills
        )

    def holders(self, skill: str) -> int:
        """How many hold a skill before the first lesson."""
        return sum(self.rank(person, skill) >= ALONE for person in self.room)

    @property
    def horizon(self) -> int:
        """So many weeks are looked ahead."""
        return min((len(weeks) for weeks in self.room.values()), default=0)


@dataclass(frozen=True, slots=True)
class Lesson:
    """One teacher brings one learner to a rank: minutes by week, and the week in which it can be signed.

    ``signed`` is later than the last lesson where the learner must first be old enough.
    """

    teacher: str
    learner: str
    skill: str
    rank: int
    weeks: tuple[tuple[int, int], ...]
    signed: int

    @property
    def minutes(self) -> int:
        return sum(minutes for _, minutes in self.weeks)


class Timetable:
    """The lessons placed so far, and what they leave: room, ranks and since when they are held."""

    def __init__(self, school: School) -> None:
        self.school = school
        self.lessons: tuple[Lesson, ...] = ()
        self._left: dict[str, Sequence[int]] = dict(school.room)
        """Minutes by week; whose hours are taken has a row of his own, the others share those of the school."""
        self._free: dict[str, int] = dict.fromkeys(school.room, 0)
        """The week before which a person has nothing left."""
        self._since: dict[tuple[str, str], tuple[tuple[int, int], ...]] = {}
        """(person, skill) to (rank, week in which it was signed), of what was taught here."""

    def copy(self) -> Timetable:
        """One to go on from without touching this one."""
        new = Timetable.__new__(Timetable)
        new.school, new.lessons = self.school, self.lessons
        new._left, new._free, new._since = dict(self._left), dict(self._free), dict(self._since)
        return new

    def emptied(self) -> Timetable:
        """One with the same ranks in which nobody has given an hour yet."""
        new = Timetable(self.school)
        new.lessons, new._since = self.lessons, dict(self._since)
        return new

    def full(self, person: str, minutes: int) -> int | None:
        """The week before which somebody has not had so many minutes, all that there are; None if never."""
        for week, room in enumerate(self.school.room[person]):
            minutes -= room
            if minutes <= 0:
                return week
        return None

    def rank(self, person: str, skill: str) -> int:
        """What a person will have reached after all lessons placed."""
        taught = self._since.get((person, skill))
        return taught[-1][0] if taught else self.school.rank(person, skill)

    def held_from(self, person: str, skill: str, rank: int) -> int | None:
        """The first week in which a person has a skill so far behind him; None if never."""
        if self.school.rank(person, skill) >= rank:
            return 0
        return next((week + 1 for reached, week in self._since.get((person, skill), ()) if reached >= rank), None)

    def holders(self, skill: str) -> list[int]:
        """The weeks in which the lessons placed give a skill its further holders, the earliest first."""
        return sorted(lesson.signed for lesson in self.lessons if lesson.skill == skill and lesson.rank >= ALONE)

    def earliest(self, teacher: str, learner: str, skill: str, rank: int) -> int | None:
        """The week before which a lesson cannot be signed after those placed; None if it never can."""
        begin, signed = self._begin(learner, skill), self.school.not_before.get((learner, skill, rank), 0)
        most = min(max(self.school.room[teacher], default=0), max(self.school.room[learner], default=0))
        if begin is None or signed is None or not most:
            return None
        begin = max(begin, self._free[teacher], self._free[learner])
        return max(begin - 1 - -self.minutes(learner, skill, rank) // most, signed)

    def earliest_of_all(self, learner: str, minutes: int) -> int | None:
        """The week before which a learner cannot have had so many minutes more; None without any room."""
        most = max(self.school.room[learner], default=0)
        return self._free[learner] - 1 - -minutes // most if most else None

    def minutes(self, learner: str, skill: str, rank: int) -> int:
        """The minutes of teaching from what the learner has reached to a rank; broken ones count whole."""
        parts = BEHIND[rank] - BEHIND[self.rank(learner, skill)]
        return -(-self.school.subjects[skill].minutes * parts // 10)

    def place(self, teacher: str, learner: str, skill: str, rank: int) -> int | None:
        """Place a lesson as early as it goes; the week in which it can be signed, or None if it never can.

        Who may teach whom is not asked here; a lesson that cannot be placed leaves nothing behind but a useless
        timetable.
        """
        begin, signed = self._begin(learner, skill), self.school.not_before.get((learner, skill, rank), 0)
        if begin is None or signed is None or teacher == learner:
            return None
        self._left[teacher] = teachers = list(self._left[teacher])
        self._left[learner] = learners = list(self._left[learner])
        rest, weeks = self.minutes(learner, skill, rank), []
        for week in range(max(begin, self._free[teacher], self._free[learner]), self.school.horizon):
            taken = min(rest, teachers[week], learners[week])
            if taken:
                teachers[week] -= taken
                learners[week] -= taken
                rest -= taken
                weeks.append((week, taken))
                if not rest:
                    self._spent(teacher, week)
                    self._spent(learner, week)
                    return self._enter(Lesson(teacher, learner, skill, rank, tuple(weeks), max(week, signed)))
        return None

    def _spent(self, person: str, until: int) -> None:
        """Move on over weeks in which nothing is left."""
        week, left = self._free[person], self._left[person]
        while week <= until and not left[week]:
            week += 1
        self._free[person] = week

    def _enter(self, lesson: Lesson) -> int:
        who = lesson.learner, lesson.skill
        self.lessons += (lesson,)
        self._since[who] = (*self._since.get(who, ()), (lesson.rank, lesson.signed))
        return lesson.signed

    def _begin(self, learner: str, skill: str) -> int | None:
        """The first week of lessons: old enough, what is needed first held, what was reached before signed."""
        weeks = [self.school.not_before.get((learner, skill, _BESIDE), 0)]
        weeks += [self.held_from(learner, need, rank) for need, rank in self.school.subjects[skill].needs]
        taught = self._since.get((learner, skill))
        weeks.append(taught[-1][1] + 1 if taught else 0)
        known = [week for week in weeks if week is not None]
        return max(known) if len(known) == len(weeks) else None

    @property
    def touched(self) -> set[str]:
        """Everybody who teaches or learns in the lessons placed."""
        return {person for lesson in self.lessons for person in (lesson.teacher, lesson.learner)}

    def mark(self, person: str, skills: frozenset[str]) -> tuple[object, ...] | None:
        """What the lessons placed have made of a person, as far as later lessons in these skills can depend on it;
        None for nothing."""
        taught = frozenset((skill, since) for skill in skills if (since := self._since.get((person, skill))))
        left = tuple(self._left[person])
        return (left, taught) if taught or left != self.school.room[person] else None
