"""Seasons with closed answers: two machines in a row, one narrow place, a line, what lies in between; and laws."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from math import ceil

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from site_builder.season.checker import check
from site_builder.season.engine import Effort
from site_builder.season.narrow import taught, with_more
from site_builder.season.problem import Able, Hand, Link, Problem, Work
from site_builder.season.relax import Loose, day_of
from site_builder.season.solve import Aim, Season, season
from tests.season.small import HOUR, any_small, hand

EFFORT = Effort(20, 1)
NEVER = 10_000


def planned(problem: Problem, **wishes: object) -> Season:
    found = season(problem, Aim(problem.days - 1, effort=EFFORT, **wishes))  # type: ignore[arg-type]
    assert found.plan is None or check(problem, found.plan) == ()
    return found


def two_machines(jobs: list[tuple[int, int]]) -> Problem:
    """A piece an hour and an hour a day at each of two machines; a job goes on when the first is done with all."""
    days = sum(map(sum, jobs)) + 1
    hands = (hand("first", *[1] * days), hand("second", *[1] * days))
    works, links = [], []
    for n, (a, b) in enumerate(jobs):
        works += [Work(f"a{n}", a, each=HOUR, able=(Able("first"),)),
                  Work(f"b{n}", b, each=HOUR, able=(Able("second"),))]
        links.append(Link(f"a{n}", f"b{n}", whole=True))
    return Problem(days, hands, (), tuple(works), tuple(links))


def in_a_row(jobs: list[tuple[int, int]], order: tuple[int, ...]) -> int:
    first = second = 0
    for n in order:
        first += jobs[n][0]
        second = max(second, first) + jobs[n][1]
    return second


def johnson(jobs: list[tuple[int, int]]) -> int:
    """S. M. Johnson, Optimal two- and three-stage production schedules with setup times included, 1954: those that are
    shorter on the first machine go first by rising time there, the others by falling time on the second."""
    early = sorted((n for n, (a, b) in enumerate(jobs) if a <= b), key=lambda n: jobs[n][0])
    late = sorted((n for n, (a, b) in enumerate(jobs) if a > b), key=lambda n: -jobs[n][1])
    return in_a_row(jobs, (*early, *late))


def test_the_example_in_johnsons_paper() -> None:
    """Five jobs, 47 in all; the numbers from memory."""
    assert johnson([(4, 5), (4, 1), (30, 4), (6, 30), (2, 3)]) == 47


@pytest.mark.parametrize("jobs", [[(3, 2), (1, 4), (2, 2)], [(2, 1), (1, 3)], [(1, 2), (4, 1), (2, 3), (1, 1)]])
def test_two_machines_in_a_row_by_johnsons_rule(jobs: list[tuple[int, int]]) -> None:
    best = johnson(jobs)
    assert best == min(in_a_row(jobs, order) for order in permutations(range(len(jobs))))
    found = planned(two_machines(jobs))
    assert found.finish == best - 1  # days are counted from 0
    assert found.proven


@pytest.mark.parametrize(("pieces", "a_day"), [(20, 4), (21, 4), (7, 7), (1, 5)])
def test_one_narrow_place_is_a_division(pieces: int, a_day: int) -> None:
    work = Work("file", pieces, each=HOUR, able=(Able("josk"),))
    found = planned(Problem(10, (hand("josk", *[a_day] * 10),), (), (work,), ()))
    assert found.finish == ceil(pieces / a_day) - 1
    assert found.proven
    assert Loose(Problem(10, (hand("josk", *[a_day] * 10),), (), (work,), ())).earliest() == pytest.approx(
        pieces / a_day)


def line(pieces: int, rates: list[int], days: int) -> Problem:
    """A line of stations, each with its own person and so many pieces a day; what is done goes on the next day."""
    hands = tuple(hand(f"p{n}", *[rate] * days) for n, rate in enumerate(rates))
    works = tuple(Work(f"s{n}", pieces, each=HOUR, able=(Able(f"p{n}"),)) for n in range(len(rates)))
    links = tuple(Link(f"s{n}", f"s{n + 1}") for n in range(len(rates) - 1))
    return Problem(days, hands, (), works, links)


def test_a_line_is_as_fast_as_its_slowest_station() -> None:
    """Line balance: the slowest of 5, 3 and 4 a day needs eight days for 24, the others a day before and after."""
    found = planned(line(24, [5, 3, 4], 14))
    assert found.finish == 1 + ceil(24 / 3) - 1 + 1
    assert found.proven


def test_pieces_in_between_by_littles_law() -> None:
    """J. D. C. Little, A proof for the queuing formula L = λW, 1961: in a line in which everything goes at 4 a day and
    waits 3 days, 12 pieces lie in between, once it has filled and until it empties."""
    problem = line(40, [4, 4], 16)
    problem = replace(problem, links=(Link("s0", "s1", 3, 3),))
    found = planned(problem)
    assert found.plan is not None
    first = [sum(s.pieces for s in found.plan if s.work == "s0" and s.day <= day) for day in range(16)]
    second = [sum(s.pieces for s in found.plan if s.work == "s1" and s.day <= day) for day in range(16)]
    between = [a - b for a, b in zip(first, second, strict=True)]
    assert between[3:9] == [12] * 6
    assert found.finish == 9 + 3


def test_nobody_who_can_is_impossible_at_once() -> None:
    problem = Problem(3, (hand("ada", 8, 8, 8),), (), (Work("anneal", 1, each=HOUR),), ())
    assert season(problem, Aim(2)) == Season(None, None, True, False)


quick = settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


def end_of(problem: Problem) -> int:
    found = planned(problem)
    assert found.proven
    return NEVER if found.finish is None else found.finish


@quick
@given(st.integers(1_000, 1_200))
def test_never_worse_with_one_more_hour(seed: int) -> None:
    problem = any_small(seed)
    assert end_of(with_more(problem, "ada", HOUR)) <= end_of(problem)


@quick
@given(st.integers(1_000, 1_200))
def test_never_worse_with_one_more_hand(seed: int) -> None:
    problem = any_small(seed)
    new = Hand("cleo", (4 * HOUR,) * problem.days, (True,) * problem.days)
    more = replace(problem, hands=(*problem.hands, new))
    for work in problem.works:
        more = taught(more, "cleo", (work.id,), 0)
    assert end_of(more) <= end_of(problem)


@quick
@given(st.integers(1_000, 1_200))
def test_never_worse_with_one_piece_fewer(seed: int) -> None:
    """Of everything one fewer; where it is lost in proportion, and without lots that would become too small."""
    problem = any_small(seed)
    works = tuple(replace(work, pieces=problem.works[-1].pieces, lots=None) for work in problem.works)
    problem = replace(problem, works=works)
    fewer = replace(problem, works=tuple(replace(work, pieces=work.pieces - 1) for work in works))
    assert end_of(fewer) <= end_of(problem)


@quick
@given(st.integers(1_000, 1_500))
def test_the_bound_is_never_later_than_the_plan(seed: int) -> None:
    problem = any_small(seed)
    moment, found = Loose(problem).earliest(), planned(problem)
    if found.finish is not None:
        assert moment is not None
        assert day_of(moment) <= found.finish
