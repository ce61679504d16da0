"""Where exposures stand, and which is worst."""

from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.safety.air import Breathed, mixture_share, shift_average
from site_builder.safety.verdict import (
    LIFTING,
    NOISE_EU,
    NOISE_NIOSH,
    NOISE_OSHA,
    VIBRATION,
    Mark,
    Yardstick,
    reaching,
    verdict,
    worst_first,
)

YARDSTICKS = (NOISE_OSHA, NOISE_NIOSH, NOISE_EU, VIBRATION, LIFTING)


def test_between_action_and_limit() -> None:
    found = verdict(VIBRATION, 3.0)
    assert found.reached == Mark("action value", 2.5)
    assert found.ahead == Mark("limit value", 5.0)
    assert found.share == 0.6
    assert not found.at_the_top


def test_a_value_that_is_just_met_is_reached() -> None:
    assert verdict(VIBRATION, 2.5).reached == Mark("action value", 2.5)
    assert verdict(VIBRATION, 5.0).at_the_top
    assert verdict(VIBRATION, 2.499).reached is None


def test_three_decibels_over_the_limit_are_twice_as_much() -> None:
    assert verdict(NOISE_EU, 90).share == 2
    assert verdict(NOISE_EU, 84).share == 0.5


def test_a_limit_reached_comes_before_an_action_value_that_is_nearly_a_limit() -> None:
    """The grinder's noise is over its limit; the lift is just under three; packing reaches nothing."""
    grinder, lift, packing = verdict(NOISE_EU, 87), verdict(LIFTING, 2.99), verdict(VIBRATION, 2.4)
    assert worst_first([packing, lift, grinder]) == (grinder, lift, packing)
    assert reaching([packing, lift, grinder]) == (grinder, lift)


def test_a_lift_that_should_not_be_done_is_worst_of_all() -> None:
    impossible = verdict(LIFTING, inf)
    assert impossible.at_the_top
    assert worst_first([verdict(NOISE_OSHA, 5000), impossible])[0] is impossible


@given(st.sampled_from(YARDSTICKS), st.floats(0, 200), st.floats(0, 100))
def test_more_never_stands_lower(yardstick: Yardstick, exposure: float, more: float) -> None:
    low, high = verdict(yardstick, exposure), verdict(yardstick, exposure + more)
    assert high.share >= low.share
    assert (high.reached.value if high.reached else 0) >= (low.reached.value if low.reached else 0)
    assert worst_first([low, high])[0].share == high.share


@given(st.lists(st.builds(verdict, st.sampled_from(YARDSTICKS), st.floats(0, 200)), max_size=8))
def test_all_are_kept_and_those_that_reach_nothing_come_last(verdicts: list) -> None:  # type: ignore[type-arg]
    ordered = worst_first(verdicts)
    assert sorted(map(id, ordered)) == sorted(map(id, verdicts))
    assert ordered[: len(reaching(verdicts))] == reaching(verdicts)


def test_measured_air_by_the_shift() -> None:
    """Two hours of grinding zinc at 6 mg/m³, the rest told as clean: 1.5."""
    assert shift_average([Breathed(6, 2)]) == 1.5
    assert mixture_share([(1.5, 5), (0.1, 0.2)]) == pytest.approx(0.8)


@given(st.lists(st.builds(Breathed, st.floats(0, 100), st.floats(0, 4)), min_size=1, max_size=5), st.floats(0, 10))
def test_fouler_air_is_never_a_lower_average(spells: list[Breathed], more: float) -> None:
    fouler = [Breathed(spell.concentration + more, spell.hours) for spell in spells]
    assert shift_average(fouler) >= shift_average(spells)
    assert shift_average(spells[::-1]) == pytest.approx(shift_average(spells))


@pytest.mark.parametrize(
    ("ask", "argument"),
    [
        (lambda: verdict(VIBRATION, -1), "exposure to hand-arm vibration"),
        (lambda: verdict(VIBRATION, nan), "exposure to hand-arm vibration"),
        (lambda: Yardstick("none", "", (), ""), "marks of none"),
        (lambda: Yardstick("crossed", "", (Mark("limit", 5), Mark("action", 2)), ""), "marks of crossed"),
        (lambda: shift_average([]), "measurements of the air"),
        (lambda: shift_average([Breathed(1, 13)] * 2), "time in the air"),
        (lambda: Breathed(-1, 1), "concentration"),
        (lambda: Breathed(1, 25), "time in the air"),
        (lambda: mixture_share([]), "substances"),
        (lambda: mixture_share([(1, 0)]), "limit"),
        (lambda: mixture_share([(-1, 5)]), "average"),
    ],
)
def test_what_no_exposure_can_be(ask: object, argument: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert caught.value.argument == argument
