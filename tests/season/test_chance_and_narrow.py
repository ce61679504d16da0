"""Chance, the narrow place, wishes that cannot all be kept, and a day by the quarter hour."""

from __future__ import annotations

from dataclasses import replace

import pytest

from site_builder.season import solve
from site_builder.season.chance import Luck, play, spread_of
from site_builder.season.checker import check
from site_builder.season.day_hours import by_the_quarter
from site_builder.season.engine import Effort
from site_builder.season.first import first_plan
from site_builder.season.narrow import Wish, kinds_of_hands, machine_down, narrow, smallest, without
from site_builder.season.problem import Able, Link, Machine, Problem, Stint, Work, last_day
from tests.season.small import HOUR, hand
from tests.season.test_checker import PLAN, SHOP


def two_in_a_row(days: int = 30) -> Problem:
    """Josk casts 6 a day, Edda anneals 4 a day: she is the narrow place."""
    works = (Work("cast", 40, each=HOUR, able=(Able("josk"),), machines=("furnace",)),
             Work("anneal", 40, each=HOUR, able=(Able("edda"),)))
    hands = (hand("josk", *[6] * days), hand("edda", *[4] * days))
    return Problem(days, hands, (Machine("furnace", (8 * HOUR,) * days),), works, (Link("cast", "anneal"),))


def test_eight_hours_of_the_narrow_hands_are_two_days_and_of_the_others_next_to_nothing() -> None:
    """Forty pieces at four a day; with eight hours more, thirty-two are left for her: two days fewer, by division."""
    problem = two_in_a_row()
    found = narrow(problem, kinds_of_hands(problem))
    assert found[0].days == pytest.approx(2, abs=0.01)
    assert found[0].more.person == "edda" or found[0].more.works == ("anneal",)
    assert not [one for one in found if one.more.person == "josk" or one.more.machine == "furnace"]


def test_the_smallest_set_of_wishes() -> None:
    problem = two_in_a_row(9)
    more = replace(problem, days=20, hands=two_in_a_row(20).hands, machines=two_in_a_row(20).machines)
    wishes = [
        Wish("Josk works six hours a day", lambda p: replace(p, hands=tuple(
            replace(one, seconds=tuple(2 * s for s in one.seconds)) if one.id == "josk" else one for one in p.hands))),
        Wish("Edda works four hours a day", lambda p: replace(p, hands=tuple(
            replace(one, seconds=tuple(2 * s for s in one.seconds)) if one.id == "edda" else one for one in p.hands))),
        Wish("forty pieces", lambda p: replace(p, works=tuple(replace(w, pieces=20) for w in p.works))),
    ]
    assert smallest(problem, 8, wishes) == ("Edda works four hours a day", "forty pieces")
    assert smallest(more, 19, wishes) is None


def test_away_and_out_of_order() -> None:
    problem = two_in_a_row()
    away = without(problem, "edda", 3, 7)
    assert away.hand("edda").seconds[2:9] == (4 * HOUR, 0, 0, 0, 0, 0, 4 * HOUR)
    assert not away.hand("edda").around[5]
    assert machine_down(problem, "furnace", 0, 1).machines[0].seconds[:3] == (0, 0, 8 * HOUR)


def test_with_no_luck_drawn_a_play_is_the_plan() -> None:
    calm = play(SHOP, PLAN, Luck(usual_spread=0.0), plays=5)
    assert set(calm.ends) == {last_day(PLAN)}


def test_the_more_things_go_off_the_later_it_ends_and_the_same_seed_plays_the_same() -> None:
    problem = two_in_a_row()
    plan = first_plan(problem, 14) or ()
    little, much = (play(problem, plan, Luck(usual_spread=spread), 200) for spread in (0.05, 0.4))
    assert little.by(0.9) <= much.by(0.9)
    assert little.in_time(29) >= much.in_time(29)
    assert little == play(problem, plan, Luck(usual_spread=0.05), 200)
    ill = play(problem, plan, Luck(usual_spread=0.05, illness=(1.0, 5)), 200)
    assert sum(ill.ends) > sum(little.ends)


def test_the_spread_of_observed_times() -> None:
    """Logarithms -0.1, 0 and 0.1: the sample deviation is 0.1."""
    assert spread_of([2.718281828459045 ** x for x in (-0.1, 0.0, 0.1)]) == pytest.approx(0.1)
    assert spread_of([1.0, 1.1]) is None


def test_a_day_by_the_quarter_hour() -> None:
    day = min(one.day for one in PLAN if one.work == "cast")
    hours = by_the_quarter(SHOP, PLAN, day, {"furnace": 1, "mill": 1}, 32, Effort(5, 1))
    assert hours
    by_person: dict[str, list[tuple[int, int]]] = {}
    for hour in hours:
        assert (hour.end - hour.first) * 900 >= hour.stint.seconds
        by_person.setdefault(hour.stint.person, []).append((hour.first, hour.end))
    for spans in by_person.values():
        assert all(a[1] <= b[0] for a, b in zip(sorted(spans), sorted(spans)[1:], strict=False))
    cast = [hour for hour in hours if hour.stint.work == "cast"]
    assert len({(hour.first, hour.end) for hour in cast}) == 1
    assert len(cast) == 2
    assert by_the_quarter(SHOP, PLAN, day, {"furnace": 1}, 2, Effort(5, 1)) is None


def test_on_one_day_paint_follows_the_primer_when_it_has_dried_and_before_it_is_too_late() -> None:
    """Primed at nought, dry after an hour, to be painted within two; in between she packs for an hour."""
    works = tuple(Work(id_, 4, each=HOUR // 4, able=(Able("edda"),)) for id_ in ("prime", "paint", "pack"))
    problem = Problem(1, (hand("edda", 8),), (), works, (Link("prime", "paint", 0, 0, stands=(HOUR, 2 * HOUR)),))
    plan = tuple(Stint(0, "edda", work.id, 4, HOUR) for work in works)
    hours = {hour.stint.work: hour for hour in by_the_quarter(problem, plan, 0, {}, 32, Effort(5, 1)) or ()}
    assert 4 <= hours["paint"].first - hours["prime"].end <= 8
    assert max(hour.end for hour in hours.values()) == 12
    assert by_the_quarter(problem, plan, 0, {}, 11, Effort(5, 1)) is None


def test_a_season_too_large_to_search_in_seconds_is_laid_by_the_quick_rule_and_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Twelve works, each for three people on each of thirty days: the plan holds, and nothing is called proven."""
    monkeypatch.setattr(solve, "_SMALL", 10)
    days = 40
    hands = tuple(hand(name, *[8] * days) for name in ("ada", "bo", "cleo"))
    works = tuple(Work(f"w{n:02}", 12, each=HOUR, able=tuple(Able(one.id) for one in hands)) for n in range(12))
    links = tuple(Link(f"w{n:02}", f"w{n + 1:02}") for n in range(11))
    problem = Problem(days, hands, (), works, links)
    told: list[str] = []
    found = solve.season(problem, solve.Aim(days - 1), told.append)
    assert found.plan is not None and not check(problem, found.plan)
    assert found.proven == (found.finish == found.bound)
    assert not found.searched
    assert not {"A sooner plan", "A calmer plan"} & set(told)
