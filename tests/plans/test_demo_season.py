"""The demo's season, as its plan is kept: believable, and its narrow place is none that a division would name."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.notebook.model.season import Season
from site_builder.plans.plan_file import Looked, look
from site_builder.plans.wanted import Wants, kinds
from site_builder.plans.weeks import day_of, loads, pieces_of, stints_of, weeks_of
from site_builder.season.problem import Work

DEMO = Path(__file__).parents[2]
EDDA_AWAY = (date(2027, 2, 8), date(2027, 2, 19))


@pytest.fixture(scope="module")
def known() -> Analysis:
    return analysis(DEMO, date(2026, 12, 1))


@pytest.fixture(scope="module")
def kept(known: Analysis) -> Season:
    return next(iter(known.notebook.seasons.values()))


@pytest.fixture(scope="module")
def looked(known: Analysis, kept: Season) -> Looked:
    return look(known, kept)


def hours(work: Work) -> float:
    loads_ = -(-work.pieces // work.load) if work.load else 0
    return (work.setup + work.each * work.pieces + work.load_time * loads_) * max(work.hands, 0) / 3_600


def by_division(known: Analysis, wanted: Wants) -> tuple[str, str, str]:
    """The skill, the machine and the person whose hours of work are the largest share of the hours there are."""
    problem = wanted.problem
    there = {one.id: sum(one.seconds[:wanted.due + 1]) / 3_600 for one in problem.hands}
    skills = {skill: sum(hours(problem.work(id_)) for id_ in ids) / sum(
        there[one] for one in {able.person for id_ in ids for able in problem.work(id_).able})
        for skill, ids in kinds(wanted, known)}
    machines = {one.id: sum(hours(work) / work.hands for work in problem.works if one.id in work.machines)
                / (sum(one.seconds[:wanted.due + 1]) / 3_600) for one in problem.machines}
    each: dict[str, float] = defaultdict(float)
    for work in problem.works:
        for able in work.able:
            each[able.person] += hours(work) / len(work.able) / there[able.person]
    return tuple(max(one, key=lambda id_: one[id_]) for one in (skills, machines, each))  # type: ignore[return-value]


def test_the_narrow_place_is_neither_the_largest_load_by_division_nor_the_plater(
    known: Analysis, kept: Season, looked: Looked,
) -> None:
    nb, narrow = known.notebook, str(kept.narrow[0].what)
    skill, machine, person = by_division(known, looked.wants)
    assert (skill, machine, person) == ("wheel-work", "polishing-spindle", "edda")
    assert narrow == f"hours of {nb.people['benno'].name}"
    for one in kept.narrow:
        assert all(str(named) not in str(one.what) for named in (
            nb.skills[skill].title, nb.tools[machine].title, nb.people[person].name, nb.procedures["plate-arm"].title))


def test_two_hundred_and_sixty_lanterns_are_packed_by_the_day_and_it_is_not_trivially_so(kept: Season) -> None:
    assert kept.due is not None and kept.ends is not None and kept.chance is not None
    packed = [one for one in kept.work if one.does == "pack-lantern"]
    assert sum(map(pieces_of, packed)) >= 260
    assert max(map(day_of, packed)) == kept.ends.value.last <= kept.due.value.last
    assert (kept.due.value.last - kept.ends.value.last).days < 21
    assert 50 < float(str(kept.chance).split()[0]) < 100


def test_people_can_live_by_it(kept: Season, looked: Looked) -> None:
    """Nobody works while away, the learner under sixteen keeps her few hours, the plater has his three weeks."""
    assert (looked.broken, looked.unread) == ((), ())
    assert not [one for one in kept.work if one.who == "edda" and EDDA_AWAY[0] <= day_of(one) <= EDDA_AWAY[1]]
    assert max(loads(kept)["ansa"].values(), default=0.0) <= 6
    for week in weeks_of(kept):
        assert {day_of(one).weekday() for one in stints_of(kept, week, "josk")} <= set(range(6))
    out = {day_of(one) for one in kept.work if one.does == "plate-arm"}
    back = min(day_of(one) for one in kept.work if one.does == "check-plating")
    assert (back - min(out)).days >= 21
