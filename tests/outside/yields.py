"""Yield, pieces to start, hours of a batch and what it uses up, against published values."""

from __future__ import annotations

from fractions import Fraction

from site_builder.formulas.batch_hours import BatchHours, Work, batch_hours, costliest, weeks_of_work
from site_builder.formulas.batch_time import WorkTime, batch_time, time_to_reckon_with, working_days
from site_builder.formulas.hands_time import HandsShare, hands_time
from site_builder.formulas.starting import Loss, chance_of_enough, expected_good, pieces_to_start
from site_builder.formulas.used_up import fresh_ones, material_used, packs_to_buy, pieces_per_life
from site_builder.formulas.yields import begin_on_average, reach_the_end, rolled_yield
from site_builder.quantity import parse_value
from tests.outside.registry import Topic, reference
from tests.outside.units import PER_CENT

TOPIC = Topic("yields", "Time and yield")

MINUTE, HOUR = Fraction(60), Fraction(3600)
_IDS = tuple(reference("yields"))


def named(*starts: str) -> tuple[str, ...]:
    return tuple(each for each in _IDS if each.startswith(starts))


@TOPIC.check(rolled_yield, "rty-labels", "fty-vs-rty")
def rolled(steps: list[float]) -> float:
    return rolled_yield(steps)


@TOPIC.check(rolled_yield, "rty-98", "rty-99")
def rolled_per_cent(steps: list[float]) -> float:
    return rolled_yield(steps) / PER_CENT


@TOPIC.check(pieces_to_start, *named("boost-", "srun-", "fail-"))
def trials(failures: int, reliability: float, confidence: float) -> int:
    """More than so many "failures": to us they are the good pieces, and the reliability is the share lost."""
    return pieces_to_start(failures + 1, [Loss(reliability)], confidence)


@TOPIC.check(chance_of_enough, "chance-59", "chance-half", "chance-tea")
def chance(started: int, wanted: int, lost: float) -> float:
    return chance_of_enough(started, wanted, [Loss(lost)])


def shares_lost(started: int, good: list[int]) -> list[Fraction]:
    return [1 - Fraction(after, before) for before, after in zip([started, *good], good, strict=False)]


@TOPIC.check(expected_good, "label-good")
def good_on_average(started: int, good: list[int]) -> float:
    return expected_good(started, [Loss(float(lost)) for lost in shares_lost(started, good)])


@TOPIC.check(reach_the_end, "label-good")
def good_at_the_end(started: int, good: list[int]) -> Fraction:
    return reach_the_end(Fraction(started), shares_lost(started, good))


@TOPIC.check(expected_good, "label-good-product")
def good_by_product(started: int, passes: list[float]) -> float:
    return expected_good(started, [Loss(1 - passed) for passed in passes])


@TOPIC.check(reach_the_end, "label-good-product")
def good_by_product_exactly(started: int, passes: list[float]) -> Fraction:
    return reach_the_end(Fraction(started), [1 - Fraction(str(passed)) for passed in passes])


@TOPIC.check(begin_on_average, "begin-sap", "begin-boxes", "begin-two")
def begin(wanted: float, passed: float) -> float:
    return begin_on_average(wanted, passed)


@TOPIC.check(material_used, "wire-10", "engines-2", "bom-10")
def material(pieces: float, each: float, lost: float) -> float:
    return material_used(pieces, each, lost=lost)


@TOPIC.check(packs_to_buy, "widgets-4", "widgets-2")
def packs(amount: float, pack: float) -> int:
    return packs_to_buy(amount, pack)


@TOPIC.check(fresh_ones, "oil-250", "oil-500")
def fillings(work: float, life: float) -> int:
    """The first is begun too, so the one in use has done its life."""
    return fresh_ones(work, life, worn=life)


@TOPIC.check(pieces_per_life, "edge-15", "edge-20")
def before_a_change(life: float, each: float) -> int:
    return pieces_per_life(life, each)


def hours(pieces: int, machines: list[list[float]], standing_h: int = 0) -> BatchHours:
    """What the machines take: for each the hours of setting up and the minutes a piece."""
    works = [
        Work(str(number), WorkTime(setup=setup_h * HOUR, each=Fraction(str(each_min)) * MINUTE), standing_h * HOUR)
        for number, (setup_h, each_min) in enumerate(machines, 1)
    ]
    return batch_hours(works, pieces)


@TOPIC.check(batch_hours, "mlt-five", "mlt-six")
def lead_time(pieces: int, machines: list[list[float]], standing_h: float) -> float:
    spent = hours(pieces, machines, standing_h)
    return (spent.hands_on + spent.waiting) / HOUR


@TOPIC.check(costliest, "costly-six", "costly-five")
def three_that_cost_most(pieces: int, machines: list[list[float]]) -> list[str]:
    return [step.name for step in costliest(hours(pieces, machines).steps)]


@TOPIC.check(weeks_of_work, "weeks-15", "weeks-20")
def weeks(pieces: int, minutes: int) -> float:
    return weeks_of_work(batch_hours([Work("all", WorkTime(each=minutes * MINUTE))], pieces).hands_on)


@TOPIC.check(batch_time, "one-machine-100", "one-machine-3")
def hours_of_one(pieces: int, setup_h: int, each_min: float) -> Fraction | None:
    found = batch_time(WorkTime(setup=setup_h * HOUR, each=Fraction(str(each_min)) * MINUTE), pieces)
    return found and found / HOUR


@TOPIC.check(working_days, "days-100", "days-141")
def days(hours: int, a_day: int) -> Fraction:
    return working_days(hours * HOUR, Fraction(a_day))


@TOPIC.check(time_to_reckon_with, "middle-range", "middle-about")
def minutes_to_reckon_with(written: str) -> Fraction | None:
    found = time_to_reckon_with(parse_value(written))
    return found and found[0] / MINUTE


@TOPIC.check(hands_time, "hands-two", "hands-load")
def minutes_of_hands(minutes: int, hands: int, pieces: int) -> list[Fraction]:
    share = HandsShare(minutes * MINUTE, minutes * MINUTE, hands, Fraction(pieces))
    return [each / MINUTE for each in hands_time([share])]
