"""Who learns what next, from whom: small shops against every plan there is, and the laws that all plans keep."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.skills.lessons import Bar, Goal, Plan, bars, plan
from site_builder.skills.timetable import ALONE, BEHIND, Lesson, School, Subject

H = 60
YEAR = 52


def always(hours: int, weeks: int = YEAR) -> tuple[int, ...]:
    return (hours * H,) * weeks


def school(**changes: object) -> School:
    """Ada teaches sawing, 20 hours of it. She has 4 hours a week for lessons, Bo has 2."""
    simple = School(
        room={"ada": always(4), "bo": always(2)},
        subjects={"sawing": Subject(20 * H, (), frozenset({"ada"}))},
        reached={("ada", "sawing"): 5}, order=("sawing",),
    )
    return replace(simple, **changes)


def told(made: Plan) -> list[tuple[str, str, str, int]]:
    return [(one.learner, one.teacher, one.skill, one.signed) for one in made.lessons]


# ------------------------------------------------------------------ examples


def test_twenty_hours_at_two_a_week_take_ten_weeks() -> None:
    made = plan(school())
    assert told(made) == [("bo", "ada", "sawing", 9)]
    assert made.lessons[0].weeks == tuple((week, 2 * H) for week in range(10))
    assert made.goals == (Goal("sawing", 2, 9, 9, True),)


def test_who_is_within_call_already_needs_three_tenths_of_it() -> None:
    assert BEHIND[3] == 7
    made = plan(school(reached={("ada", "sawing"): 5, ("bo", "sawing"): 3}))
    assert made.lessons[0].minutes == 6 * H
    assert made.goals[0].week == 2


def test_the_riskiest_skill_comes_first_though_it_takes_longer() -> None:
    subjects = {"sawing": Subject(2 * H, (), frozenset({"ada"})), "gilding": Subject(20 * H, (), frozenset({"ada"}))}
    made = plan(school(subjects=subjects, reached={("ada", "sawing"): 5, ("ada", "gilding"): 5},
                       order=("gilding", "sawing")))
    assert [(goal.skill, goal.week) for goal in made.goals] == [("gilding", 9), ("sawing", 10)]
    assert made.goals[1].earliest == 0  # if nothing else were taught


def test_what_the_first_leaves_the_second_takes() -> None:
    """Ada has four hours a week and Bo can take two of them: Cy gets the other two."""
    subjects = {"sawing": Subject(20 * H, (), frozenset({"ada"})), "gilding": Subject(20 * H, (), frozenset({"ada"}))}
    made = plan(school(
        room={"ada": always(4), "bo": always(2), "cy": always(2)}, subjects=subjects,
        reached={("ada", "sawing"): 5, ("ada", "gilding"): 5}, order=("gilding", "sawing"),
    ))
    assert [goal.week for goal in made.goals] == [9, 9]
    assert {one.learner for one in made.lessons} == {"bo", "cy"}


def test_what_is_needed_first_is_taught_first_and_only_as_far_as_needed() -> None:
    subjects = {"casting": Subject(10 * H, (("melting", 3),), frozenset({"ada"})),
                "melting": Subject(10 * H, (), frozenset({"ada"}))}
    made = plan(school(subjects=subjects, reached={("ada", "casting"): 5, ("ada", "melting"): 5},
                       order=("casting", "melting")))
    assert [(one.skill, one.rank, one.minutes // H) for one in made.lessons] == [
        ("melting", 3, 7), ("casting", 4, 10), ("melting", 4, 3)]
    # seven hours fill weeks 0 to 3, casting begins in the week after
    assert made.lessons[1].weeks[0][0] == 4


def test_nobody_is_taught_before_the_age_nor_signed_before_it() -> None:
    """Bo may stand beside from week 5 and work alone from week 30."""
    made = plan(school(not_before={("bo", "sawing", 2): 5, ("bo", "sawing", 4): 30}))
    assert made.lessons[0].weeks[0][0] == 5
    assert made.lessons[0].weeks[-1][0] == 14
    assert made.goals[0].week == 30


def test_a_shop_that_wants_three_gets_every_second_before_any_third() -> None:
    subjects = {one: Subject(4 * H, (), frozenset({"ada"})) for one in ("sawing", "gilding")}
    made = plan(school(
        room={"ada": always(2), "bo": always(2), "cy": always(2)}, subjects=subjects, wanted=3,
        reached={("ada", "sawing"): 5, ("ada", "gilding"): 5}, order=("gilding", "sawing"),
    ))
    assert [(goal.skill, goal.holder, goal.week) for goal in made.goals] == [
        ("gilding", 2, 1), ("sawing", 2, 3), ("gilding", 3, 5), ("sawing", 3, 7)]


def test_of_two_learners_the_one_who_is_further() -> None:
    made = plan(school(room={"ada": always(4), "bo": always(2), "cy": always(2)},
                       reached={("ada", "sawing"): 5, ("cy", "sawing"): 2}))
    assert told(made) == [("cy", "ada", "sawing", 5)]


def test_looking_ahead_who_learns_the_first_may_matter_for_the_second() -> None:
    """Bo and Cy would both learn sawing in one week; but only Cy may learn gilding, so Bo saws."""
    subjects = {"sawing": Subject(2 * H, (), frozenset({"ada"})), "gilding": Subject(2 * H, (), frozenset({"dee"}))}
    made = plan(school(
        room={"ada": always(2), "bo": always(2), "cy": always(2), "dee": always(2)}, subjects=subjects,
        reached={("ada", "sawing"): 5, ("dee", "gilding"): 5}, order=("sawing", "gilding"),
        not_before={(one, "gilding", 2): None for one in ("ada", "bo")},
    ))
    assert told(made) == [("bo", "ada", "sawing", 0), ("cy", "dee", "gilding", 0)]


# ------------------------------------------------------------------ what cannot be


def test_without_a_teacher_there_is_no_lesson() -> None:
    nobody = school(subjects={"sawing": Subject(20 * H)})
    assert plan(nobody).goals == (Goal("sawing", 2, None, None, True),)
    assert bars(nobody, "sawing") == {"bo": Bar.NO_TEACHER}


def test_each_bar_has_its_name() -> None:
    two = {"ada": always(4), "bo": always(2)}
    reached = {("ada", "casting"): 5}
    need = {"casting": Subject(H, (("melting", 4),), frozenset({"ada"})), "melting": Subject(H)}
    assert bars(school(room=two, subjects=need, reached=reached, order=("casting",)), "casting") == {
        "bo": Bar.NEED_NO_TEACHER}
    circle = {"casting": Subject(H, (("melting", 4),), frozenset({"ada"})),
              "melting": Subject(H, (("casting", 4),), frozenset({"ada"}))}
    assert bars(school(room=two, subjects=circle, reached=reached, order=("casting",)), "casting") == {
        "bo": Bar.CIRCLE}
    assert bars(school(not_before={("bo", "sawing", 2): None}), "sawing") == {"bo": Bar.AGE}
    assert bars(school(room={"ada": always(4), "bo": always(0)}), "sawing") == {"bo": Bar.NO_HOURS}
    assert bars(school(room={"ada": always(4, 3), "bo": always(2, 3)}), "sawing") == {"bo": Bar.TOO_LONG}
    assert bars(school(), "sawing") == {}


# ------------------------------------------------------------------ against every plan there is


class Slow:
    """The rule of the timetable once more, written down as plainly as it goes: minute by minute, week by week."""

    def __init__(self, school: School, lessons: tuple[tuple[str, str, str, int, int], ...] = ()) -> None:
        self.school = school
        self.left = {who: list(weeks) for who, weeks in school.room.items()}
        self.ranks: dict[tuple[str, str], list[tuple[int, int]]] = defaultdict(list)
        for (who, skill), rank in school.reached.items():
            self.ranks[who, skill].append((rank, -1))
        self.signed: dict[str, list[int]] = defaultdict(list)
        for one in lessons:
            self.teach(*one[:4])

    def rank(self, who: str, skill: str) -> int:
        return max((rank for rank, _ in self.ranks[who, skill]), default=0)

    def teach(self, teacher: str, learner: str, skill: str, rank: int) -> int | None:
        subject = self.school.subjects[skill]
        young = self.school.not_before.get((learner, skill, 2), 0)
        signable = self.school.not_before.get((learner, skill, rank), 0)
        if young is None or signable is None:
            return None
        begin = young
        for need, least in subject.needs:
            begin = max(begin, min(week for reached, week in self.ranks[learner, need] if reached >= least) + 1)
        begin = max([begin, *(week + 1 for _, week in self.ranks[learner, skill])])
        parts = BEHIND[rank] - BEHIND[self.rank(learner, skill)]
        rest = (subject.minutes * parts + 9) // 10
        for week in range(begin, self.school.horizon):
            while rest and self.left[teacher][week] and self.left[learner][week]:
                self.left[teacher][week] -= 1
                self.left[learner][week] -= 1
                rest -= 1
            if not rest:
                self.ranks[learner, skill].append((rank, max(week, signable)))
                if rank == ALONE:
                    self.signed[skill].append(max(week, signable))
                return max(week, signable)
        return None

    def chain(self, learner: str, skill: str, rank: int, above: tuple[str, ...] = ()) -> list[tuple[str, int]] | None:
        if self.rank(learner, skill) >= rank:
            return []
        if skill in above or not self.school.subjects[skill].teachers - {learner}:
            return None
        found: list[tuple[str, int]] = []
        for need, least in self.school.subjects[skill].needs:
            before = self.chain(learner, need, least, (*above, skill))
            if before is None:
                return None
            found += [one for one in before if one not in found]
        return [*found, (skill, rank)]


Told = tuple[tuple[str, str, str, int, int], ...]
NEVER = 10**6


def every_plan(school: School) -> Iterator[tuple[int, ...]]:
    """The weeks in which the aims are reached, of every choice of learners and teachers there is."""
    aims = [(skill, nth) for nth in range(1, school.wanted + 1) for skill in school.order
            if sum(school.reached.get((who, skill), 0) >= ALONE for who in school.room) < nth]

    def go_on(lessons: Told, weeks: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if len(weeks) == len(aims):
            yield weeks
            return
        skill, nth = aims[len(weeks)]
        now = Slow(school, lessons)
        more = nth - sum(school.reached.get((who, skill), 0) >= ALONE for who in school.room)
        if len(now.signed[skill]) >= more:
            yield from go_on(lessons, (*weeks, sorted(now.signed[skill])[more - 1]))
            return
        reached = False
        for learner in school.room:
            chain = now.chain(learner, skill, ALONE)
            if not chain:
                continue
            for teachers in product(*(school.subjects[one].teachers - {learner} for one, _ in chain)):
                way = tuple((teacher, learner, one, rank, 0) for teacher, (one, rank) in zip(teachers, chain,
                                                                                           strict=True))
                after = Slow(school, lessons)
                end: int | None = 0
                for one in way:
                    end = after.teach(*one[:4]) if end is not None else None
                if end is not None:
                    reached = True
                    yield from go_on((*lessons, *way), (*weeks, end))
        if not reached:
            yield from go_on(lessons, (*weeks, NEVER))

    yield from go_on((), ())


@st.composite
def schools(draw: st.DrawFn, people: int = 3, skills: int = 3, weeks: int = 8) -> School:
    """Small schools with everything in them: needs, ages, levels, uneven weeks, skills without teachers."""
    who = [f"p{n}" for n in range(draw(st.integers(2, people)))]
    what = [f"s{n}" for n in range(draw(st.integers(1, skills)))]
    reached = {(p, s): draw(st.sampled_from((0, 0, 1, 2, 3, 4, 5))) for p in who for s in what}
    subjects = {
        s: Subject(
            draw(st.integers(1, 12)),
            tuple((need, draw(st.integers(2, 4))) for need in what if need != s and draw(st.integers(0, 4)) == 0),
            frozenset(p for p in who if reached[p, s] == 5),
        ) for s in what
    }
    ages = {(p, s, rank): draw(st.sampled_from((0, 0, 1, 3, None)))
            for p in who for s in what for rank in (2, 4) if draw(st.integers(0, 4)) == 0}
    return School(
        {p: tuple(draw(st.lists(st.integers(0, 4), min_size=weeks, max_size=weeks))) for p in who},
        subjects, reached, tuple(draw(st.permutations(what))), draw(st.integers(1, 3)), ages,
    )


@settings(max_examples=150, deadline=None)
@given(schools())
def test_no_plan_is_better(school: School) -> None:
    made = plan(school)
    assert made.proven
    plans = set(every_plan(school))
    assert tuple(NEVER if goal.week is None else goal.week for goal in made.goals) == min(plans)
    for number, goal in enumerate(made.goals):
        assert min(weeks[number] for weeks in plans) >= (NEVER if goal.earliest is None else goal.earliest)


@settings(max_examples=100, deadline=None)
@given(schools(people=5, skills=4, weeks=12))
def test_the_laws_of_every_plan(school: School) -> None:
    made = plan(school)
    spent: dict[tuple[str, int], int] = defaultdict(int)
    held: dict[tuple[str, str], list[tuple[int, int]]] = defaultdict(list)
    for key, rank in school.reached.items():
        held[key].append((rank, -1))
    for lesson in made.lessons:
        keep_the_law(school, lesson, held)
        for week, minutes in lesson.weeks:
            assert minutes > 0
            spent[lesson.teacher, week] += minutes
            spent[lesson.learner, week] += minutes
    for (who, week), minutes in spent.items():
        assert minutes <= school.room[who][week]
    for goal in made.goals:
        assert goal.week is None or (goal.earliest is not None and goal.earliest <= goal.week)


def keep_the_law(school: School, lesson: Lesson, held: dict[tuple[str, str], list[tuple[int, int]]]) -> None:
    """The teacher is entitled, what is needed is held, the learner is old enough, the hours are those it takes."""
    subject, first, last = school.subjects[lesson.skill], lesson.weeks[0][0], lesson.weeks[-1][0]
    assert lesson.teacher in subject.teachers
    assert lesson.teacher != lesson.learner
    for need, least in subject.needs:
        assert any(rank >= least and week < first for rank, week in held[lesson.learner, need])
    for rank, from_week in ((2, first), (lesson.rank, lesson.signed)):
        young = school.not_before.get((lesson.learner, lesson.skill, rank), 0)
        assert young is not None
        assert from_week >= young
    before = max(rank for rank, _ in held[lesson.learner, lesson.skill])
    assert before < lesson.rank
    assert lesson.minutes == -(-subject.minutes * (BEHIND[lesson.rank] - BEHIND[before]) // 10)
    assert lesson.signed >= last
    held[lesson.learner, lesson.skill].append((lesson.rank, lesson.signed))


@given(schools())
def test_who_is_not_barred_can_be_brought_there(school: School) -> None:
    for skill in school.order:
        barred = bars(school, skill)
        learners = [who for who in school.room if school.rank(who, skill) < ALONE]
        alone = plan(replace(school, order=(skill,), wanted=school.holders(skill) + 1))
        assert (alone.goals[0].week is None) == (len(barred) == len(learners))


def test_a_large_shop_is_not_proven_but_bounded_and_the_same_every_time() -> None:
    """Twenty-five people and thirty-six skills, all of one teacher: too many equal plans to follow them all."""
    who = [f"p{n:02}" for n in range(25)]
    what = [f"s{n:02}" for n in range(36)]
    big = School(
        {p: always(3 + n % 5, weeks=1000) for n, p in enumerate(who)},
        {s: Subject((5 + n) * H, (), frozenset({"p00"})) for n, s in enumerate(what)},
        {("p00", s): 5 for s in what}, tuple(what),
    )
    made = plan(big)
    assert not made.proven
    assert made.goals[0].proven
    assert all(goal.earliest is not None and goal.week is not None and goal.earliest <= goal.week
               for goal in made.goals)
    assert made == plan(big)
