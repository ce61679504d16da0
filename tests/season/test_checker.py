"""The checker: a plan that can be lived passes; two hundred that were spoilt are all caught, by the right rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

import pytest

from site_builder.season.checker import Rule, check
from site_builder.season.first import first_plan
from site_builder.season.problem import FULL_DOSE, Able, Link, Lots, Machine, Plan, Problem, Stint, Work
from tests.season.small import HOUR, hand

DAYS = 30
WEEK = [6, 6, 6, 6, 6, 0, 0]


def a_shop() -> Problem:
    """Casting for two, grinding with noise, a plater who takes in on Mondays, priming and painting within a day."""
    hours = (WEEK * 5)[:DAYS]
    hands = (hand("edda", *hours), hand("josk", *hours), hand("benno", *hours), hand("ansa", *[h / 3 for h in hours]))
    works = (
        Work("cast", 24, HOUR // 2, 600, hands=2, able=(Able("edda"), Able("josk")), helpers=("josk", "benno"),
             machines=("furnace",)),
        Work("grind", 24, 600, 1200, able=(Able("benno"), Able("josk", teachers=("edda",))), machines=("mill",),
             doses={"noise": FULL_DOSE // (3 * HOUR)}),
        Work("plate", 24, hands=0, lots=Lots(frozenset(range(0, DAYS, 7)), 10, 14)),
        Work("prime", 23, 600, 300, able=(Able("edda"),)),
        Work("paint", 23, 600, 300, load=6, load_time=900, able=(Able("edda"), Able("benno", 3))),
        Work("pack", 22, 300, 600, able=(Able("josk"), Able("benno"))),
    )
    links = (Link("cast", "grind", 1, 6), Link("grind", "plate", 1, 10), Link("plate", "prime", 5),
             Link("prime", "paint", 1, 1), Link("paint", "pack", 1))
    machines = (Machine("furnace", (6 * HOUR,) * DAYS), Machine("mill", (5 * HOUR,) * DAYS))
    return Problem(DAYS, hands, machines, works, links)


SHOP = a_shop()
PLAN = first_plan(SHOP, DAYS - 1) or ()


def test_the_plan_can_be_lived() -> None:
    assert len(PLAN) > 10
    assert check(SHOP, PLAN) == ()


Spoil = Callable[[Random, Plan], Plan]


def swap(plan: Plan, old: Stint, *new: Stint) -> Plan:
    return (*(one for one in plan if one is not old), *new)


def lead(chance: Random, plan: Plan, *works: str) -> Stint:
    return chance.choice([one for one in plan if one.leads and one.person and (not works or one.work in works)])


def fewer(chance: Random, plan: Plan) -> Plan:
    return swap(plan, one := lead(chance, plan), *([replace(one, pieces=one.pieces - 1)] if one.pieces > 1 else []))


def unable(chance: Random, plan: Plan) -> Plan:
    return swap(plan, one := lead(chance, plan), replace(one, person="ansa"))


def hurried(chance: Random, plan: Plan) -> Plan:
    return swap(plan, one := lead(chance, plan), replace(one, seconds=one.seconds - chance.randint(1, 600)))


def on_sunday(chance: Random, plan: Plan) -> Plan:
    one = lead(chance, plan, "grind", "paint", "pack", "prime")
    return swap(plan, one, replace(one, day=min(one.day - one.day % 7 + 6, 27)))


def overlong(chance: Random, plan: Plan) -> Plan:
    return swap(plan, one := lead(chance, plan), replace(one, seconds=7 * HOUR))


def alone_at_the_pot(chance: Random, plan: Plan) -> Plan:
    helper = chance.choice([one for one in plan if not one.leads])
    return swap(plan, helper)


def helper_leaves(chance: Random, plan: Plan) -> Plan:
    helper = chance.choice([one for one in plan if not one.leads])
    return swap(plan, helper, replace(helper, seconds=helper.seconds - 60))


def stranger(chance: Random, plan: Plan) -> Plan:
    return swap(plan, one := lead(chance, plan), replace(one, person="nobody-here"))


def before_it_came(chance: Random, plan: Plan) -> Plan:
    one = lead(chance, plan, "paint", "pack")
    return swap(plan, one, replace(one, day=chance.choice([0, 1, 2])))


def wrong_lot_day(chance: Random, plan: Plan) -> Plan:
    lot = chance.choice([one for one in plan if one.work == "plate"])
    return swap(plan, lot, replace(lot, day=lot.day + chance.randint(1, 6)))


def lot_too_large(chance: Random, plan: Plan) -> Plan:
    lot = chance.choice([one for one in plan if one.work == "plate"])
    return swap(plan, lot, replace(lot, pieces=lot.pieces + 10))


def too_loud(chance: Random, plan: Plan) -> Plan:
    one = lead(chance, plan, "grind")
    return swap(plan, one, replace(one, pieces=10, seconds=600 + 10 * 1200))


def left_too_long(chance: Random, plan: Plan) -> Plan:
    one = min((one for one in plan if one.work == "prime"), key=lambda s: s.day)
    return swap(plan, one, replace(one, day=one.day - chance.choice([3, 4])))


def twice(chance: Random, plan: Plan) -> Plan:
    one = lead(chance, plan, "grind", "pack")
    return (*plan, one)


SPOILS: dict[Spoil, Rule] = {
    fewer: Rule.ENOUGH, unable: Rule.ABLE, hurried: Rule.SENSE, on_sunday: Rule.HOURS, overlong: Rule.HOURS,
    alone_at_the_pot: Rule.HANDS, helper_leaves: Rule.HANDS, stranger: Rule.KNOWN, before_it_came: Rule.CAME,
    wrong_lot_day: Rule.LOT, lot_too_large: Rule.LOT, too_loud: Rule.DOSE, left_too_long: Rule.LATE, twice: Rule.TWICE,
}


@pytest.mark.parametrize("number", range(210))
def test_a_spoilt_plan_is_caught_by_the_right_rule(number: int) -> None:
    spoil, rule = list(SPOILS.items())[number % len(SPOILS)]
    found = check(SHOP, spoil(Random(number), PLAN))
    assert rule in {one.rule for one in found}, spoil.__name__


def test_within_call_only_while_the_teacher_is_around() -> None:
    quiet = replace(SHOP, hands=tuple(
        replace(one, around=(False,) * DAYS) if one.id == "edda" else one for one in SHOP.hands))
    grind = next(one for one in PLAN if one.work == "grind")
    spoilt = swap(PLAN, grind, replace(grind, person="josk"))
    assert Rule.ALONE in {one.rule for one in check(quiet, spoilt)}
    assert Rule.ALONE not in {one.rule for one in check(SHOP, spoilt)}


def test_a_machine_has_only_so_many_hours() -> None:
    slow = replace(SHOP, machines=(Machine("furnace", (600,) * DAYS), Machine("mill", (600,) * DAYS)))
    assert {one.who for one in check(slow, PLAN) if one.rule is Rule.MACHINE} == {"furnace", "mill"}


def test_work_may_be_bound_to_days_and_to_the_end_of_all_before() -> None:
    late = SHOP.changed(replace(SHOP.work("pack"), last=3))
    assert Rule.DAYS in {one.rule for one in check(late, PLAN)}
    whole = replace(SHOP, links=tuple(replace(one, whole=one.after == "grind") for one in SHOP.links))
    begun = min(one.day for one in PLAN if one.work == "grind")
    ended = max(one.day for one in PLAN if one.work == "cast")
    assert (Rule.WHOLE in {one.rule for one in check(whole, PLAN)}) == (begun <= ended)
