"""Small seasons against exhaustive search: the same earliest day, and nothing found where there is nothing."""

from __future__ import annotations

import pytest

from site_builder.season.checker import check
from site_builder.season.engine import Effort
from site_builder.season.first import first_plan
from site_builder.season.relax import Loose
from site_builder.season.solve import Aim, season
from tests.season.small import any_small, exhaustive

EFFORT = Effort(20, 1)


@pytest.mark.parametrize("first", range(0, 60, 10))
def test_finds_the_day_that_trying_everything_finds(first: int) -> None:
    for seed in range(first, first + 10):
        problem = any_small(seed)
        best = exhaustive(problem)
        found = season(problem, Aim(problem.days - 1, effort=EFFORT))
        assert found.finish == best, seed
        assert found.proven
        if found.plan is not None:
            assert check(problem, found.plan) == (), seed
        if best is not None:
            assert found.bound is not None
            assert found.bound <= best
        else:
            assert found.in_time(problem.days - 1) is False


def test_what_the_hours_forbid_is_impossible() -> None:
    for seed in range(300, 400):
        problem = any_small(seed)
        for until in range(problem.days):
            if Loose(problem).share(until) is None:
                assert first_plan(problem, until, 5) is None
        plan = first_plan(problem, problem.days - 1, 5)
        assert plan is None or check(problem, plan) == ()
