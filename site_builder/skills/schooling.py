"""The school of a shop: what its notebook tells of hours, ages, needs and teachers, ready for a timetable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.spans import day_after
from site_builder.notebook.way import span
from site_builder.notebook.working_days import working_days
from site_builder.quantity import kind_of
from site_builder.skills.ages import Ages
from site_builder.skills.holders import LEVELS, Holders
from site_builder.skills.loss import NOBODY, Knowledge, share_of
from site_builder.skills.teaching import Teaching
from site_builder.skills.timetable import ALONE, School, Subject

WANTED = 2
"""So many should hold each skill, where the shop does not say."""
LEARNING = 4 * 60
"""Minutes a week for lessons, where a person's hours are not told. An assumption."""
OF_THE_HOURS = 5
"""Where only the working time is told, one hour in so many is for lessons. An assumption."""
AHEAD = 520
"""So many weeks are looked ahead: ten years."""

_WEEK = 7 * 24 * 60
_TEACHES = 5


@dataclass(frozen=True)
class Schooling:
    """A school, its first Monday, and what had to be assumed because the notebook does not tell it.

    ``days``: the last working day of each week. ``teaching``: the hours each skill takes and what they rest on.
    ``unplanned``: people whose time for lessons is a share of their hours; ``unhoured``: people whose hours are not
    told at all.
    """

    school: School
    monday: date
    days: tuple[date, ...]
    teaching: Mapping[str, Teaching]
    unplanned: tuple[str, ...]
    unhoured: tuple[str, ...]

    def day(self, week: int) -> date:
        """The last working day of a week: by then what is planned for it is done."""
        return self.days[week] if week < len(self.days) else self.monday + timedelta(weeks=week, days=6)


def schooling_of(
    knowledge: Knowledge, holders: Holders, ages: Ages, teaching: Mapping[str, Teaching],
) -> Schooling:
    """Everything a plan of lessons from the day of ``holders`` on is made of. Weeks begin on the next Monday."""
    nb, today = holders.notebook, holders.today
    monday = today + timedelta(days=-today.weekday() % 7)
    shares, days = _weeks(nb, monday)
    room = {person: _room(nb, person, shares) for person in nb.living}
    school = School(
        room=room,
        subjects={id_: _subject(nb, knowledge, id_, teaching[id_]) for id_ in nb.skills},
        reached={(person, skill): _reached(knowledge, holders, person, skill)
                 for person in nb.living for skill in nb.skills},
        order=by_risk(knowledge), wanted=wanted(nb),
        not_before=dict(_not_before(nb, ages, monday)),
    )
    people = nb.living.items()
    return Schooling(
        school, monday, days,
        teaching=teaching,
        unplanned=tuple(id_ for id_, one in people if _weekly(one.learning) is None
                        and _weekly(one.hours) is not None),
        unhoured=tuple(id_ for id_, one in people if _weekly(one.learning) is None
                       and _weekly(one.hours) is None),
    )


def wanted(notebook: Notebook) -> int:
    """How many should hold each skill."""
    told = notebook.shop.holders if notebook.shop is not None else None
    found = span(told) if told is not None else None
    return max(1, int(found[0])) if found is not None else WANTED


def by_risk(knowledge: Knowledge) -> tuple[str, ...]:
    """Skills with the riskiest first: by the share of the hours that ask for them, the number of procedures, how
    few may teach them."""
    asking = {skill: [name for name, work in knowledge.works.items() if any(skill in one for one in work.skills)]
              for skill in knowledge.able}
    risk = {skill: (-(share_of(knowledge, names) or 0), -len(names), len(knowledge.teachers.get(skill, NOBODY)))
            for skill, names in asking.items()}
    return tuple(sorted(knowledge.able, key=lambda skill: (risk[skill], skill)))


def _weeks(notebook: Notebook, monday: date) -> tuple[list[tuple[int, int]], tuple[date, ...]]:
    """Of each week (days worked, days in a usual week), and its last working day."""
    calendar = notebook.shop.calendar if notebook.shop is not None else None
    usual = len(calendar.days) if calendar is not None and calendar.days else 5
    worked: list[list[date]] = [[] for _ in range(AHEAD)]
    for day in working_days(calendar, monday, monday + timedelta(weeks=AHEAD, days=-1)):
        worked[(day - monday).days // 7].append(day)
    last = (days[-1] if days else monday + timedelta(weeks=week, days=6) for week, days in enumerate(worked))
    return [(len(days), usual) for days in worked], tuple(last)


def _room(notebook: Notebook, person: str, weeks: list[tuple[int, int]]) -> tuple[int, ...]:
    one = notebook.people[person]
    minutes = _weekly(one.learning)
    if minutes is None:
        hours = _weekly(one.hours)
        minutes = LEARNING if hours is None else hours // OF_THE_HOURS
    return tuple(minutes * worked // usual for worked, usual in weeks)


def _weekly(told: Written | None) -> int | None:
    """Minutes a week, of `6 h/week` and of plain `6 h`: the least that is told, so that no more is planned than there
    surely is."""
    found = span(told) if told is not None else None
    if found is None or told is None:
        return None
    return int(found[0] / 60 if kind_of(told.value) == "time" else found[0] * _WEEK)


def _subject(notebook: Notebook, knowledge: Knowledge, id_: str, teaching: Teaching) -> Subject:
    skill = notebook.skills[id_]
    needs = tuple(
        (str(need.skill), LEVELS.index(str(need.level or "alone")) + 1) for need in skill.needs
        if need.skill in notebook.skills and str(need.level or "alone") in LEVELS
    )
    return Subject(teaching.minutes, needs, knowledge.teachers.get(id_, NOBODY))


def _reached(knowledge: Knowledge, holders: Holders, person: str, skill: str) -> int:
    """The rank somebody has; a sign-off that rests counts as the level below, and never as alone."""
    if person in knowledge.able[skill]:
        return _TEACHES if person in knowledge.teachers[skill] else ALONE
    held = holders.level(person, skill)
    if held is None:
        return 0
    return min(held.rank - held.rests, ALONE - 1)


def _not_before(notebook: Notebook, ages: Ages, monday: date) -> list[tuple[tuple[str, str, int], int | None]]:
    """The first whole week in which somebody is old enough for a rank in a skill.

    Of a year of birth without a day the last day counts; where none is written, nobody is taken for old enough.
    """
    found: list[tuple[tuple[str, str, int], int | None]] = []
    for skill in notebook.skills:
        for rank in range(2, ALONE + 1):
            asked = ages.of_skill(skill, LEVELS[rank - 1])
            for person, one in notebook.living.items() if asked is not None else ():
                week: int | None = None
                if one.born is not None and asked is not None:
                    days = (day_after(one.born.value.last, asked.seconds) - monday).days
                    week = max(0, -(-days // 7))
                if week != 0:
                    found.append(((person, skill, rank), week if week is not None and week < AHEAD else None))
    return found
