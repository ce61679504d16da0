"""Hands that hold feet on a belt and frames on a mop."""

from __future__ import annotations

from math import fsum, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.safety.vibration import (
    ACTION,
    LIMIT,
    Grip,
    daily_exposure,
    hours_left,
    hours_until,
    points,
    points_of,
    total_from_one_axis,
    total_of_axes,
)

DAY = (Grip(2.1, 3), Grip(2.4, 2))
"""Belt and mop."""

grips = st.lists(st.builds(Grip, st.floats(0, 30), st.floats(0, 3)), max_size=7)


def test_the_day_by_hand() -> None:
    """2 x 2.1² x 3 and 2 x 2.4² x 2 are 26.5 and 23.0 points; A(8) is the root of 24.75 over 8."""
    assert points(DAY) == pytest.approx(49.5)
    assert daily_exposure(DAY) == pytest.approx(1.76, abs=0.005)


def test_a_day_without_vibration() -> None:
    assert daily_exposure([]) == points([]) == 0
    assert hours_until(0) == inf
    assert hours_left(DAY, 0) == 19


def test_what_is_reached_leaves_no_time() -> None:
    assert hours_left([Grip(5, 2)], 2) == 0
    assert hours_left([Grip(5, 2)], 5, LIMIT) == pytest.approx(6)


@given(grips)
def test_points_and_exposure_tell_the_same(day: list[Grip]) -> None:
    assert points_of(daily_exposure(day)) == pytest.approx(points(day))


@given(grips, st.floats(0, 30), st.floats(0, 3))
def test_one_grip_more_never_makes_it_less(day: list[Grip], vibration: float, hours: float) -> None:
    more = [*day, Grip(vibration, hours)]
    assert daily_exposure(more) >= daily_exposure(day)
    assert points(more) == pytest.approx(points(day) + points([Grip(vibration, hours)]))
    assert daily_exposure(more[::-1]) == pytest.approx(daily_exposure(more))


@given(st.floats(0.1, 30), st.floats(0.5, 10))
def test_twice_the_vibration_leaves_a_quarter_of_the_time(vibration: float, a8: float) -> None:
    assert hours_until(2 * vibration, a8) == pytest.approx(hours_until(vibration, a8) / 4)
    assert hours_until(vibration, LIMIT) == pytest.approx(4 * hours_until(vibration, ACTION))


@given(grips, st.floats(0.5, 30))
def test_the_time_left_ends_at_the_value(day: list[Grip], vibration: float) -> None:
    left = hours_left(day, vibration)
    assert 0 <= left <= 24
    before, after = daily_exposure(day), daily_exposure([*day, Grip(vibration, left)])
    assert after <= max(before, ACTION) + 1e-9
    if 0 < left < 24 - fsum(grip.hours for grip in day) - 1e-9:
        assert after == pytest.approx(ACTION)


@given(st.permutations([1.0, 2.5, 7.0]), st.floats(0.1, 10))
def test_no_axis_is_before_another(axes: list[float], times: float) -> None:
    assert total_of_axes(*axes) == pytest.approx(total_of_axes(1.0, 2.5, 7.0))
    assert total_of_axes(*(axis * times for axis in axes)) == pytest.approx(times * total_of_axes(*axes))
    assert max(axes) <= total_of_axes(*axes) <= total_from_one_axis(max(axes)) + 0.35


@pytest.mark.parametrize(
    ("ask", "argument", "unit"),
    [
        (lambda: Grip(-1, 1), "vibration", "m/s²"),
        (lambda: Grip(2, -1), "time at the tool", "h"),
        (lambda: Grip(2, 25), "time at the tool", "h"),
        (lambda: daily_exposure([Grip(2, 13)] * 2), "time at the tools", "h"),
        (lambda: points([Grip(2, 13)] * 2), "time at the tools", "h"),
        (lambda: points_of(-1), "daily exposure", "m/s² A(8)"),
        (lambda: hours_until(2, 0), "daily exposure", "m/s² A(8)"),
        (lambda: hours_until(-2), "vibration", "m/s²"),
        (lambda: hours_left(DAY, -2), "vibration", "m/s²"),
        (lambda: total_of_axes(1, -1, 1), "vibration", "m/s²"),
        (lambda: total_from_one_axis(2, 2.0), "factor", ""),
    ],
)
def test_what_no_vibration_can_be(ask: object, argument: str, unit: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert (caught.value.argument, caught.value.unit) == (argument, unit)
