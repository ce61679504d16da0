"""Work by the hour: small cases by hand, and the quick ones of the published instances (all: `make benchmark`)."""

from __future__ import annotations

import pytest

from site_builder.season.by_the_hour import Lag, Schedule, Task, schedule
from site_builder.season.engine import Effort
from site_builder.season.search import Answer
from tests.season.published import broken, published

EFFORT = Effort(20, 2)
QUICK = {"j3028_5", "j3026_1", "psp81", "PSP22"}
INSTANCES = published()


def test_there_are_forty_and_more_of_each_kind() -> None:
    families = {one.family.split("-")[0] for one in INSTANCES}
    assert len(INSTANCES) == 46
    assert families == {"j30", "j60", "ubo20", "smj30", "mspsp"}
    assert all(one.source for one in INSTANCES)


@pytest.mark.parametrize("one", [one for one in INSTANCES if one.name in QUICK], ids=lambda one: one.name)
def test_reaches_the_published_makespan(one: object) -> None:
    found = schedule(one.schedule, EFFORT)  # type: ignore[attr-defined]
    assert found.answer is Answer.BEST
    assert found.end == one.makespan  # type: ignore[attr-defined]
    assert broken(one.schedule, found) == []  # type: ignore[attr-defined]


def test_what_is_published_as_impossible_is_proven_so() -> None:
    one = next(one for one in INSTANCES if one.makespan is None)
    assert schedule(one.schedule, EFFORT).answer is Answer.NONE


def test_paint_must_follow_the_primer_within_its_window() -> None:
    prime, paint, other = Task("prime", 4, {"booth": 1}), Task("paint", 4, {"booth": 1}), Task("other", 9, {"booth": 1})
    window = (Lag("prime", "paint", 4 + 4), Lag("paint", "prime", -12))
    found = schedule(Schedule((prime, paint, other), window, {"booth": 1}), EFFORT)
    assert found.answer is Answer.BEST
    assert 8 <= found.starts["paint"] - found.starts["prime"] <= 12
    assert found.end == 21  # the other work before or after, since nine steps do not fit between


def test_a_melt_does_not_cross_the_night_and_filing_does() -> None:
    night = ((28, 96),)
    day = ((0, 28), (96, 124))
    melt = Task("melt", 20, {"josk": 1}, within=day)
    file = Task("file", 20, {"josk": 1}, crosses=True)
    found = schedule(Schedule((melt, file), (), {"josk": 1}, breaks=night, until=124), EFFORT)
    assert found.answer is Answer.BEST
    assert found.starts["melt"] in (*range(9), *range(96, 105))
    assert found.end == 96 + 12  # twenty steps of each, twenty-eight of them on the first day
    assert found.ends["file"] - found.starts["file"] > 20 or found.starts["melt"] >= 96


def test_who_is_away_does_nothing_and_one_person_serves_one_skill_at_a_time() -> None:
    tasks = (Task("cast", 4, skills={"casting": 2}), Task("file", 4, skills={"filing": 1}))
    people = {"ada": frozenset({"casting", "filing"}), "bo": frozenset({"casting"})}
    found = schedule(Schedule(tasks, (), people=people, away={"bo": ((0, 6),)}), EFFORT)
    assert found.answer is Answer.BEST
    assert found.starts["cast"] == 6
    assert set(found.who["cast"]) == {"ada", "bo"}
    assert found.who["file"] == ("ada",)
    assert found.end == 10


def test_the_same_twice() -> None:
    one = INSTANCES[0]
    assert schedule(one.schedule, EFFORT).starts == schedule(one.schedule, EFFORT).starts
