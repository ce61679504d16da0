"""What holds of wheels and grits whatever the figures."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.grits import CoarseStep, Grit, coarse_steps, grain_size, grit, nearest_grit
from site_builder.formulas.speed_bands import BANDS, speed_band
from site_builder.formulas.surface_speed import belt_speed, diameter_for, over_rating, surface_speed, turns_for

sizes = st.floats(0.01, 1)
turns = st.floats(1, 300)
P_GRADES = [
    Grit("P", n) for n in (36, 40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 400, 500, 600, 800, 1000)
]


@given(sizes, turns)
def test_speed_size_and_turning_lead_to_one_another(diameter: float, turning: float) -> None:
    speed = surface_speed(diameter, turning)
    assert turns_for(speed, diameter) == pytest.approx(turning)
    assert diameter_for(speed, turning) == pytest.approx(diameter)
    assert belt_speed(diameter, turning) == speed


@given(sizes, turns, st.floats(0.1, 1))
def test_a_worn_wheel_is_slower_by_as_much_as_it_is_smaller(diameter: float, turning: float, left: float) -> None:
    assert surface_speed(diameter * left, turning) == pytest.approx(surface_speed(diameter, turning) * left)


@given(sizes, turns, st.floats(0, 0.9))
def test_a_belt_that_slips_is_never_faster(diameter: float, turning: float, slip: float) -> None:
    assert belt_speed(diameter, turning, slip) <= belt_speed(diameter, turning)


@given(st.floats(0, 1e4), st.floats(1, 1e4), st.floats(0.01, 100))
def test_over_the_rating_whatever_the_unit(running: float, rated: float, unit: float) -> None:
    assert over_rating(running * unit, rated * unit) == pytest.approx(over_rating(running, rated), abs=1e-9)
    assert (over_rating(running, rated) > 0) == (running > rated)


def test_a_mop_of_250_mm_at_2850_rev_min() -> None:
    """Rim speed 37.3 m/s; worn to 180 mm it is 26.9 m/s; it may wear to 170 mm before it falls under 25.4 m/s."""
    assert surface_speed(0.25, 2850 / 60) == pytest.approx(37.3, abs=0.05)
    assert surface_speed(0.18, 2850 / 60) == pytest.approx(26.9, abs=0.05)
    assert diameter_for(25.4, 2850 / 60) == pytest.approx(0.170, abs=0.0005)


def test_a_metal_without_a_band_of_its_own_has_that_of_the_wheel() -> None:
    assert speed_band("buff", "tin") is speed_band("buff")
    assert speed_band("buff", "zinc") is not speed_band("buff")


def test_every_band_names_its_source_and_lies_where_wheels_run() -> None:
    for band in BANDS.values():
        assert band.source
        assert 5 <= band.speeds.low <= band.speeds.high <= 50


@pytest.mark.parametrize("system", ["P", "F", "CAMI"])
def test_a_higher_number_is_a_finer_grain(system: str) -> None:
    sizes = [grain_size(each).middle for number in range(1, 3000) if (each := _known(system, number)) is not None]
    assert len(sizes) > 15
    assert sizes == sorted(sizes, reverse=True)
    assert len(set(sizes)) == len(sizes)


def _known(system: str, number: int) -> Grit | None:
    try:
        return grit(f"{system} {number}")
    except ValueError:
        return None


@given(st.sampled_from(P_GRADES))
def test_a_grade_is_the_nearest_to_its_own_grains(grade: Grit) -> None:
    assert nearest_grit(grain_size(grade).middle, "P") == grade
    assert grit(str(grade)) == grade


@given(st.lists(st.sampled_from(P_GRADES), min_size=1, max_size=5, unique=True))
def test_with_the_missing_grits_put_in_no_step_is_too_large(grades: list[Grit]) -> None:
    sequence = sorted(grades)
    filled = set(sequence)
    for step in coarse_steps(sequence):
        filled |= set(step.between)
    # grades stand on a ladder of their own, so a rung may lie a little over half the one before
    assert coarse_steps(sorted(filled), most=2.25) == ()


@given(st.lists(st.sampled_from(P_GRADES), min_size=2, max_size=6))
def test_a_rule_that_allows_more_never_finds_more(grades: list[Grit]) -> None:
    assert len(coarse_steps(grades, most=3)) <= len(coarse_steps(grades, most=2))


def test_from_80_to_180_the_120_is_missing() -> None:
    (step,) = coarse_steps(["P80", "P180", "P240"])
    assert step == CoarseStep(Grit("P", 80), Grit("P", 180), pytest.approx(201 / 82), (Grit("P", 120),))


def test_a_step_back_to_a_coarser_grit_is_no_step_too_large() -> None:
    assert coarse_steps(["P320", "P80"]) == ()


def test_systems_may_be_mixed_and_are_compared_by_their_grains() -> None:
    """CAMI 400 is 23 µm and P400 35 µm: after P240 the first is too fine, the second is not."""
    assert coarse_steps(["P240", "P400"]) == ()
    (step,) = coarse_steps(["P240", "400"])
    assert [str(each) for each in step.between] == ["CAMI 320"]
