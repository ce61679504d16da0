"""What a season is planned from: what is bought, upkeep, weights lifted, lessons decided, pins, other orders."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.plans.wanted import Wants, wants
from site_builder.season.problem import FULL_DOSE, Able
from tests.plans.hinges import SHOP

TODAY = date(2027, 2, 1)


def asked(folder: Path, *changes: tuple[str, str], more: str = "") -> Wants:
    """The season of the hinges with lines of the shop written otherwise."""
    text = SHOP
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    write_example(text + more, folder)
    return wants(analysis(folder, TODAY), "spring")


def test_what_is_bought_and_not_there_holds_up_the_work_that_takes_it(tmp_path: Path) -> None:
    late = asked(tmp_path, ("lead time: 2 wk", "lead time: 6 wk"))
    assert late.days.on(late.problem.work("pin-hinge").first) == date(2027, 3, 15)
    assert any("“Screw”: none, as far as is told, there; ordered on 2027-02-01" in one for one in late.assumed)


def test_what_is_there_holds_up_nothing(tmp_path: Path) -> None:
    there = asked(tmp_path, ("lead time: 2 wk", "lead time: 6 wk, stock: 240"))
    assert there.problem.work("pin-hinge").first == 0
    assert not any("Screw" in one for one in there.assumed)


def test_too_few_are_ordered_all_the_same(tmp_path: Path) -> None:
    few = asked(tmp_path, ("lead time: 2 wk", "lead time: 6 wk, stock: 239"))
    assert few.days.on(few.problem.work("pin-hinge").first) == date(2027, 3, 15)
    assert any("239 of 240 there" in one for one in few.assumed)


def test_upkeep_takes_its_hours_on_the_day_on_which_it_is_due(tmp_path: Path) -> None:
    kept = asked(tmp_path, ("title: Press\n", "title: Press\nupkeep: [{do: Grease the ram., when: every 4 weeks, "
                            "date: 2027-02-13, time: {setup: 3 h}}]\n"))
    press = next(one for one in kept.problem.machines if one.id == "press")
    usual = press.seconds[0]
    assert [str(kept.days.on(day)) for day, seconds in enumerate(press.seconds) if seconds == usual - 3 * 3_600] == [
        "2027-03-13", "2027-04-10", "2027-05-08", "2027-06-05", "2027-07-03"]


def test_upkeep_whose_time_is_not_told_is_said(tmp_path: Path) -> None:
    kept = asked(tmp_path, ("title: Press\n", "title: Press\nupkeep: [{do: Grease the ram., when: every 4 weeks, "
                            "date: 2027-02-13}]\n"))
    assert any("“Press”: how long its upkeep takes is not told" in one for one in kept.assumed)


def test_weights_of_a_day_are_a_sum_over_all_work(tmp_path: Path) -> None:
    """10 kg a piece of ten minutes are a kilogram a minute: ten tonnes take 10,000 minutes."""
    heavy = asked(tmp_path, ("steps: Punch it.", "steps: [{do: Punch it., settings: {lift: 10 kg}}]"))
    dose = heavy.problem.work("punch-leaf").doses["lifting"]
    assert 1 <= dose * 10_000 * 60 / FULL_DOSE < 1.03  # rounded up
    strict = asked(tmp_path, ("steps: Punch it.", "steps: [{do: Punch it., settings: {lift: 10 kg}}]"),
                   ("calendar:", "planning: {lifting: 1000 kg}\ncalendar:"))
    assert abs(strict.problem.work("punch-leaf").doses["lifting"] / dose - 10) < 0.3


def test_lessons_that_are_decided_open_hands_from_their_day_on(tmp_path: Path) -> None:
    opened = asked(tmp_path, ("calendar:", "planning: {lessons: {who: bo, skill: punching, teacher: ada, "
                              "date: 2027-03-15}}\ncalendar:"))
    work = opened.problem.work("punch-leaf")
    assert Able("bo", opened.days.number(date(2027, 3, 15))) in work.able
    assert "bo" not in {one.person for one in opened.problem.work("pin-hinge").able}
    assert any("Bo Ost does “Punch the leaf” alone from 2027-03-15 on" in one for one in opened.assumed)


def test_work_is_bound_to_somebody_and_to_days(tmp_path: Path) -> None:
    bound = asked(tmp_path, ("not before: 2027-03-01", "not before: 2027-03-01\npinned: {work: punch-leaf, who: ada, "
                             "date: 2027-03-15..2027-03-19}"))
    work = bound.problem.work("punch-leaf")
    assert [one.person for one in work.able] == ["ada"]
    assert (bound.days.on(work.first), bound.days.on(work.last)) == (date(2027, 3, 15), date(2027, 3, 19))


def test_orders_share_the_hands_and_what_is_made_is_not_made_again(tmp_path: Path) -> None:
    other = """\
=== procedures/orders/easter.yml
order: easter
title: Easter hinges
product: hinge
pieces: 10
due: 2027-03-25
made: {leaf: 20}
"""
    both = asked(tmp_path, more=other)
    assert both.problem.work("easter:pin-hinge").pieces == 10
    assert both.problem.work("easter:punch-leaf").pieces == 0
    assert both.days.on(both.problem.work("easter:pin-hinge").last) == date(2027, 3, 25)


def test_a_founder_does_what_nobody_is_signed_off_for_yet(tmp_path: Path) -> None:
    """A notebook of the first day has no sign-offs; the season is no impossibility for that."""
    young = asked(tmp_path, ("founding: true, left: 2020}", "founding: true}"),
                  (SHOP[SHOP.index("=== skills/records"):], ""))
    assert [one.person for one in young.problem.work("punch-leaf").able] == ["ola"]
    assert any("Ola Ost is taken to do alone what nobody is signed off for yet" in one for one in young.assumed)
