"""No public function of the arithmetic takes what cannot be: nor a new one, which nobody needs to remember.

What is spoiled, and how, stands in ``bad_input.py``. Refused is with the one error of the arithmetic, which names the
figure; what is answered all the same stands here with the reason.
"""

from __future__ import annotations

from collections.abc import Iterator
from fnmatch import fnmatchcase
from functools import cache

import pytest

from site_builder.formulas.batch_hours import Spent
from site_builder.formulas.errors import Impossible
from site_builder.safety.lifting_tables import LiftUnits
from site_builder.safety.verdict import Verdict
from site_builder.skills.proof.agreement import Agreed, Kappa, ManyKappa
from site_builder.skills.proof.capability import Capability
from site_builder.skills.proof.comparison import SharesCompared
from site_builder.skills.proof.control_limits import Limits
from site_builder.skills.proof.curve_fit import Fitted
from site_builder.skills.proof.gauge_study import GaugeStudy
from site_builder.skills.proof.leaning import Leaning
from site_builder.skills.proof.sequential import Plan, Standing, judge
from site_builder.skills.proof.standard_time import Standard
from site_builder.skills.proof.steadiness import Steadiness
from site_builder.skills.proof.success_run import Due
from site_builder.skills.proof.values_compared import Moved
from tests.formulas.bad_input import Asked, answer, public_functions, recorded, spoiled
from tests.formulas.samples import ask_all
from tests.outside.registry import topics

MADE_BY_US: frozenset[type] = frozenset({
    Agreed, Capability, Due, Fitted, GaugeStudy, Kappa, Leaning, LiftUnits, Limits, ManyKappa, Moved, SharesCompared,
    Spent, Standard, Standing, Steadiness, Verdict,
})
"""What our own functions hand over, and the two sets of constants of the lifting equation: nobody writes them."""

MEANT: tuple[tuple[str, str, str], ...] = (
    # endless
    ("*.misfits least infinite", "", "an open side of a gap is infinite"),
    ("*.misfits most infinite", "", "an open side of a gap is infinite"),
    ("*.put_together least infinite", "", "an open side of a gap is infinite"),
    ("*.put_together most infinite", "", "an open side of a gap is infinite"),
    ("formulas.recoat.* windows.each.high *", "infinite absurd", "a window that never closes"),
    ("formulas.temperature.* sensible.* *", "infinite absurd negative", "an end of a range may be open, and cold"),
    ("safety.lifting.composite_index tasks.* infinite", "", "a task that should not be done has an infinite index"),
    ("safety.verdict.verdict exposure infinite", "", "what is allowed for no time is an infinite dose"),
    ("skills.proof.chances.variance_ratio_above ratio infinite", "", "readings without any spread below"),
    ("skills.proof.wording.percent_of_rate rate *", "infinite absurd", "a curve through figures gone wild"),
    # words
    ("* *name word", "", "a name is free; it is only told again"),
    ("safety.verdict.* yardstick.unit word", "", "only told again"),
    ("safety.verdict.* yardstick.source word", "", "only told again"),
    ("skills.proof.wording.* unit word", "", "only told again"),
    ("skills.proof.wording.* what word", "", "only told again"),
    ("skills.proof.wording.* failing word", "", "only told again; empty after a heading"),
    # rows without anything
    ("formulas.batch_hours.* empty", "", "a way without work takes no time"),
    ("formulas.hands_time.* empty", "", "no operation takes no time"),
    ("formulas.chain.* sizes.each.measured empty", "", "parts that nobody has measured"),
    ("formulas.going_together.* sizes.each.measured empty", "", "parts that nobody has measured"),
    ("formulas.recoat.working_times closed empty", "", "no day is closed"),
    ("formulas.starting.* losses empty", "", "nothing is lost"),
    ("formulas.yields.* empty", "", "without operations all of it comes through"),
    ("safety.noise.* spells empty", "", "a day without noise"),
    ("safety.vibration.* grips empty", "", "a day without anything that shakes"),
    ("safety.verdict.reaching verdicts empty", "", "nothing to sort"),
    ("skills.proof.sequential.judge good empty", "", "a test that has not begun goes on"),
    ("skills.proof.steadiness.steadiness good empty", "", "a hand without pieces is not steady yet"),
    # under nothing
    ("formulas.blanks.blank_of_profile *.1 negative", "", "heights along the axis count from anywhere"),
    ("formulas.profile.surface_area *.1 negative", "", "heights along the axis count from anywhere"),
    ("formulas.profile.circle_through * negative", "", "a point may lie anywhere"),
    ("formulas.profile.Circle.at angle negative", "", "an angle may turn the other way"),
    ("formulas.chain.* sizes.each.* negative", "", "sizes counted against the gap, and deviations, lie under nothing"),
    ("formulas.going_together.* sizes.each.* negative", "", "as in a chain"),
    ("formulas.going_together.* least negative", "", "a gap under nothing is an overlap"),
    ("formulas.going_together.* most negative", "", "a gap under nothing is an overlap"),
    ("formulas.iso_fits.size_of_class factor negative", "", "a size counted against the gap"),
    ("formulas.melting_heat.heat_to_melt cold negative", "", "a temperature below freezing"),
    ("formulas.pot_life.pot_life_at told_at negative", "", "a temperature below freezing"),
    ("formulas.pot_life.pot_life_at room negative", "", "a temperature below freezing"),
    ("formulas.pouring.* negative", "", "a temperature below freezing"),
    ("formulas.shrinkage.hot_size * negative", "", "a temperature below freezing"),
    ("formulas.temperature.* negative", "", "a temperature below freezing"),
    ("formulas.recoat.* working.each.low negative", "", "a time before the midnight that is counted from"),
    ("formulas.recoat.open_times finished negative", "", "a time before the midnight that is counted from"),
    ("skills.proof.agreement.strength kappa negative", "", "worse than luck"),
    ("skills.proof.capability.* negative", "", "a deviation from what is wanted, either way"),
    ("skills.proof.chances.* point negative", "", "a place to the left of the middle, or where nothing lies"),
    ("skills.proof.chances.binomial_at_most most negative", "", "fewer hits than none never come"),
    ("skills.proof.chances.variance_ratio_above ratio negative", "", "every ratio lies above"),
    ("skills.proof.control_limits.* negative", "", "a deviation from what is wanted, either way"),
    ("skills.proof.gauge_study.* readings.* negative", "", "a deviation from what is wanted, either way"),
    ("skills.proof.steadiness.running_sum values.each negative", "", "a deviation, either way"),
    ("skills.proof.steadiness.running_sum target negative", "", "a deviation, either way"),
    ("skills.proof.steadiness.RunningSum.first_over limit negative", "", "every sum is over it"),
    ("skills.proof.straight_line.* negative", "", "a place to the left of nothing"),
    ("skills.proof.subgroups.* lots.each.each negative", "", "a deviation from what is wanted, either way"),
    ("skills.proof.values_compared.* negative", "", "a deviation from what is wanted, either way"),
    ("skills.proof.wording.figure value negative", "", "a deviation, either way"),
    # the rest
    ("formulas.batch_hours.batch_hours started broken", "", "pieces on average"),
)
"""Spoiled figures that mean something: where and of what kind, as ``function argument kind``; kinds apart where the
place is said for several; and what they mean."""

MANY = "many"
"""A figure that is only large or small may be answered; it may not take long."""


@cache
def asked() -> dict[str, list[Asked]]:
    """Every function with calls of it, as the checks from outside and the samples ask it."""

    def run() -> None:
        for topic in topics():
            for check in topic.checks:
                check.ask(**check.entry.inputs)
        ask_all()

    return recorded(run, public_functions())


def meant(function: str, where: str, kind: str) -> set[str]:
    """What in the list lets it be answered all the same."""
    return {
        pattern for pattern, kinds, _ in MEANT
        if (not kinds or kind in kinds.split()) and fnmatchcase(f"{function} {where} {kind}", pattern)
    }


def wrong(function: str) -> Iterator[str]:
    """What a function takes and should not, or how else it fails."""
    for one in asked().get(function, ()):
        for bad in spoiled(one, MADE_BY_US):
            found = answer(one.function, bad.given)
            if found.word == "refused" or (found.word == "answered" and bad.kind == MANY):
                continue
            if found.word != "answered" or not meant(function, bad.where, bad.kind):
                yield f"{bad.where}, {bad.kind}: {found.word} {found.told}"


@pytest.mark.parametrize("function", sorted(public_functions()))
def test_what_cannot_be_is_refused_with_the_one_error(function: str) -> None:
    assert function in asked(), "no check from outside asks it: add one, or a call to samples.py"
    assert list(wrong(function)) == []


def test_no_reason_is_kept_for_what_is_refused() -> None:
    """A list that is longer than it need be would let things through one day."""
    used: set[str] = set()
    for function, calls in asked().items():
        for one in calls:
            for bad in spoiled(one, MADE_BY_US):
                if bad.kind != MANY and answer(one.function, bad.given).word == "answered":
                    used |= meant(function, bad.where, bad.kind)
    assert {pattern for pattern, _, _ in MEANT} - used == set()


def test_the_test_finds_what_takes_anything() -> None:
    def careless(level: float, count: int) -> float:
        return level * count if count < 10**7 else float(sum(1 for _ in range(count)))

    one = Asked(careless, {"level": 90.0, "count": 3})
    words = {(bad.where, bad.kind, answer(careless, bad.given).word) for bad in spoiled(one, MADE_BY_US)}
    assert ("level", "nan", "answered no number") in words
    assert ("level", "negative", "answered") in words
    assert ("count", "absurd", "took too long") in words


def test_bad_is_no_piece_that_is_good() -> None:
    with pytest.raises(Impossible, match="pieces must each be good or not, true or false, not bad"):
        judge(["bad"] * 60, Plan(0.01, 0.1))  # type: ignore[list-item]
