"""What a shop loses with its people, on a shop small enough to be reckoned in the head.

Ada, Bo and Cy make a box and a lid. Ada saws, and alone teaches it. Ada and Bo glue. Only Cy paints; he does it with
the paint that Bo alone mixes. Minutes in a box: sawing 10, gluing 20, painting 30.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.skills.loss import (
    Knowledge,
    Work,
    each_without,
    pairs_without,
    share_of,
    single_points,
    without,
)

MIN = Fraction(60)


def people(names: str) -> frozenset[str]:
    return frozenset(names.split())


def one(*skills: str) -> tuple[frozenset[str], ...]:
    return (frozenset(skills),)


SHOP = Knowledge(
    people=("ada", "bo", "cy"),
    able={"sawing": people("ada"), "gluing": people("ada bo"), "mixing": people("bo"), "painting": people("cy")},
    teachers={"sawing": people("ada"), "gluing": people("ada bo"), "mixing": people("bo"), "painting": people("")},
    works={
        "saw": Work(one("sawing")), "glue": Work(one("gluing")), "mix": Work(one("mixing")),
        "paint": Work(one("painting"), one("mix")), "sweep": Work(),
    },
    ways={"box": ("saw", "glue", "paint"), "lid": ("saw",)},
    products={"chest": people("chest box lid")},
    seconds={"chest": {"saw": 10 * MIN, "glue": 20 * MIN, "paint": 30 * MIN}},
    untold={"chest": ("sweep",)},
)


def test_with_ada_goes_the_sawing_and_a_sixth_of_the_hours() -> None:
    loss = without(SHOP, ["ada"])
    assert loss.nobody == ("saw",)
    assert loss.held_up == ()
    assert loss.unheld == ("sawing",)
    assert loss.untaught == ("sawing",)  # gluing is still taught by Bo
    assert loss.parts == ("box", "lid")
    assert loss.products == ("chest",)
    assert loss.share == Fraction(1, 6)
    assert loss.hours[0].untold == ("sweep",)


def test_with_bo_goes_the_mix_and_the_painting_waits_for_it() -> None:
    loss = without(SHOP, ["bo"])
    assert loss.nobody == ("mix",)
    assert loss.held_up == ("paint",)
    assert loss.parts == ("box",)
    assert loss.share == Fraction(1, 2)


def test_what_nobody_may_teach_already_is_not_lost_with_cy() -> None:
    assert without(SHOP, []).untaught == ("painting",)
    assert without(SHOP, ["cy"]).untaught == ()
    assert without(SHOP, ["cy"]).unheld == ("painting",)


def test_together_ada_and_bo_leave_a_gap_that_neither_leaves_alone() -> None:
    gap = pairs_without(SHOP)
    assert list(gap) == [("ada", "bo")]
    assert gap["ada", "bo"].nobody == ("glue",)
    assert gap["ada", "bo"].untaught == ("gluing",)
    assert gap["ada", "bo"].parts == ()  # the box stops with either of them
    assert gap["ada", "bo"].share == Fraction(1, 3)


def test_the_ranked_list_begins_with_what_stops_most() -> None:
    points = single_points(SHOP)
    told = [(p.person, p.skills, p.procedures, p.share, p.only_hands, p.only_teacher) for p in points]
    assert told == [
        ("bo", ("mixing",), ("mix",), Fraction(1, 2), True, True),
        ("cy", ("painting",), ("paint",), Fraction(1, 2), True, False),
        ("ada", ("sawing",), ("saw",), Fraction(1, 6), True, True),
    ]


def test_who_alone_teaches_is_a_point_too_ranked_by_what_ends_later() -> None:
    shop = replace(SHOP, able={**SHOP.able, "sawing": people("ada cy"), "painting": people("cy bo")},
                   teachers={**SHOP.teachers, "painting": people("cy")})
    points = {p.skills: p for p in single_points(shop)}
    assert points["sawing",].procedures == ()
    assert points["sawing",].share == 0
    assert points["sawing",].only_teacher
    assert not points["sawing",].only_hands
    assert points["sawing",].later == Fraction(1, 6)
    assert [*points] == [("mixing",), ("painting",), ("sawing",)]


def test_a_procedure_that_asks_for_two_skills_hangs_on_the_one_who_has_both() -> None:
    shop = Knowledge(
        people=("ada", "bo", "cy"), able={"sawing": people("ada bo"), "gluing": people("ada cy")},
        teachers={"sawing": people("ada bo"), "gluing": people("ada cy")},
        works={"join": Work(one("sawing", "gluing"))},
    )
    assert [(p.person, p.skills, p.only_hands) for p in single_points(shop)] == [
        ("ada", ("gluing", "sawing"), False)]
    assert single_points(shop)[0].share is None  # no time is told


def test_either_of_two_skills_is_enough_where_both_cover_the_work() -> None:
    shop = Knowledge(people=("ada", "bo"), able={"sawing": people("ada"), "milling": people("bo")},
                     works={"part": Work((frozenset({"sawing"}), frozenset({"milling"})))})
    assert without(shop, ["ada"]).nobody == ()
    assert pairs_without(shop)["ada", "bo"].nobody == ("part",)


def test_two_ways_to_a_mix_stop_only_together() -> None:
    shop = Knowledge(
        people=("ada", "bo", "cy"),
        able={"boiling": people("ada"), "grinding": people("bo"), "painting": people("cy")},
        works={"boil": Work(one("boiling")), "grind": Work(one("grinding")),
               "paint": Work(one("painting"), (frozenset({"boil", "grind"}),))},
        ways={"box": ("paint",)},
    )
    assert without(shop, ["ada"]).parts == ()
    assert pairs_without(shop)["ada", "bo"].held_up == ("paint",)
    assert pairs_without(shop)["ada", "bo"].parts == ("box",)


def test_somebody_whose_sign_off_rests_is_named_where_nobody_else_is_left() -> None:
    shop = replace(SHOP, resting={"sawing": people("bo")})
    assert without(shop, ["ada"]).rests == (("sawing", ("bo",)),)
    assert without(shop, ["ada", "bo"]).rests == ()


def test_nothing_is_said_about_work_that_asks_for_no_skill() -> None:
    assert SHOP.unasked == ("sweep",)
    assert "sweep" not in without(SHOP, SHOP.people).nobody


# ------------------------------------------------------------------ laws

NAMES = ("ada", "bo", "cy", "dee")
some_people = st.frozensets(st.sampled_from(NAMES))
SKILLS = ("a", "b", "c")
WORKS = ("u", "v", "w", "x")


@st.composite
def shops(draw: st.DrawFn) -> Knowledge:
    able = {skill: draw(some_people) for skill in SKILLS}
    skills = st.lists(st.frozensets(st.sampled_from(SKILLS), min_size=1), max_size=2).map(tuple)
    needs = st.lists(st.frozensets(st.sampled_from(WORKS), min_size=1, max_size=2), max_size=2).map(tuple)
    return Knowledge(
        NAMES, able, {skill: draw(some_people) & able[skill] for skill in SKILLS}, {},
        {name: Work(draw(skills), draw(needs)) for name in WORKS},
        {"p": draw(st.lists(st.sampled_from(WORKS), unique=True).map(tuple)), "q": ("u",)},
        {"p": frozenset({"p", "q"})}, {"p": {name: Fraction(draw(st.integers(1, 9))) for name in WORKS}},
    )


def stopped(shop: Knowledge, gone: frozenset[str]) -> set[str]:
    """By the meaning of the words, one procedure after the other, until nothing changes."""
    def doable(name: str) -> bool:
        work = shop.works[name]
        return not work.skills or any(
            all(person in shop.able[skill] for skill in asked)
            for asked in work.skills for person in set(NAMES) - gone)

    still = {name for name in WORKS if doable(name)}
    while True:
        fewer = {name for name in still if all(group & still for group in shop.works[name].needs)}
        if fewer == still:
            return set(WORKS) - still
        still = fewer


@given(shops(), some_people)
def test_the_loss_is_what_the_words_say(shop: Knowledge, gone: frozenset[str]) -> None:
    loss = without(shop, gone)
    before = stopped(shop, frozenset()) if gone else set()
    after = stopped(shop, gone)
    assert set(loss.held_up) <= after - before
    assert (set(loss.nobody) | set(loss.held_up)) - before == after - before
    spent = shop.seconds["p"]
    assert loss.hours[0].affected == sum(spent[name] for name in after - before)
    assert set(loss.parts) == {part for part, way in shop.ways.items()
                               if after & set(way) and not before & set(way)}


@given(shops(), some_people, some_people)
def test_nobody_is_missed_less_for_another_who_goes_too(
    shop: Knowledge, gone: frozenset[str], more: frozenset[str]
) -> None:
    if gone:
        assert set(without(shop, gone).nobody) <= set(without(shop, gone | more).nobody)
        assert set(without(shop, gone).untaught) <= set(without(shop, gone | more).untaught)


@given(shops())
def test_every_gap_of_two_is_found(shop: Knowledge) -> None:
    found = pairs_without(shop)
    alone = each_without(shop)
    for pair in combinations(NAMES, 2):
        both = without(shop, pair)
        apart = {name for person in pair for name in (*alone[person].nobody, *alone[person].untaught)}
        gap = set(both.nobody) | set(both.untaught)
        assert (set(found[pair].nobody) | set(found[pair].untaught) if pair in found else set()) == gap - apart


@given(shops())
def test_every_point_is_one(shop: Knowledge) -> None:
    alone = each_without(shop)
    points = single_points(shop)
    for point in points:
        assert set(point.procedures) <= set(alone[point.person].nobody)
        assert point.share == share_of(shop, point.procedures)
    for person in NAMES:
        assert {p for point in points if point.person == person for p in point.procedures} == set(alone[person].nobody)


@pytest.mark.parametrize("person", SHOP.people)
def test_each_is_the_loss_of_one(person: str) -> None:
    assert each_without(SHOP)[person] == without(SHOP, [person])
