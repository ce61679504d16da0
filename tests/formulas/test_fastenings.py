"""Fits by name, screws and the thread around them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.formulas.inch_threads import SIZES as INCH_SIZES
from site_builder.formulas.inch_threads import unified
from site_builder.formulas.interval import Interval
from site_builder.formulas.iso_fits import class_deviations, fit_room, size_limits, size_of_class
from site_builder.formulas.screws import (
    preload,
    preload_band,
    preload_for,
    stress_area,
    stress_area_inch,
    tightening_torque,
)
from site_builder.formulas.threads import (
    IN_ZINC,
    Thread,
    engagement_needed,
    hole_thread_area,
    metric,
    screw_thread_area,
    shear_strength,
    tear_out_force,
)

SIZES = (2, 3, 4, 5, 6, 8, 10, 12, 16)
FINE = ((2.5, 0.35), (4, 0.5), (6, 0.75), (8, 1), (10, 1.25), (10, 0.75), (12, 1.5), (16, 1), (20, 2), (24, 1.5))
INCH = tuple((size, count) for size, (_, *counts) in INCH_SIZES.items() for count in counts)
THREADS = (*map(metric, (*SIZES, 2.5, 3.5, 14, 18, 20, 22, 24)), *(metric(*one) for one in FINE),
           *(unified(*one) for one in INCH))
ALLOY_3_SHEAR = 214
"""MPa, zinc alloy 3 die cast (ctprecisioncastings.com, data tables)."""


@pytest.mark.parametrize(
    ("fit", "kind"),
    [("H7/g6", "clearance"), ("H7/h6", "clearance"), ("H7/k6", "transition"), ("H7/p6", "interference")],
)
def test_the_kinds_of_fit(fit: str, kind: str) -> None:
    """ISO 286-1, the usual fits on 25 mm: running, locating, light push, press."""
    assert fit_room(25, fit).kind == kind


@given(st.fractions(min_value=1, max_value=500), st.sampled_from(["H7/g6", "H7/h6", "H7/p6", "H8/f7"]))
def test_a_fit_is_as_wide_as_its_two_tolerances(size: Fraction, fit: str) -> None:
    room = fit_room(size, fit)
    hole, shaft = (class_deviations(size, side) for side in fit.split("/"))
    assert room.most - room.least == (hole[1] - hole[0]) + (shaft[1] - shaft[0])


def test_a_class_becomes_a_size_of_a_chain() -> None:
    pin = size_of_class("pin", 6, "h6", -1)
    assert (pin.nominal, pin.lower, pin.upper, pin.factor) == (6, pytest.approx(-0.008), 0, -1)
    limits = size_limits(6, "h6")
    assert (limits.low, limits.high) == pytest.approx((5.992, 6.0))


@given(st.floats(0, 1e4), st.floats(1, 50), st.floats(0.05, 0.4))
def test_torque_and_pull_undo_each_other(pull: float, diameter: float, factor: float) -> None:
    assert preload(tightening_torque(pull, diameter, factor), diameter, factor) == pytest.approx(pull)


@given(st.floats(0.1, 100), st.floats(1, 50), st.floats(0.05, 0.3), st.floats(0, 0.2))
def test_more_friction_pulls_less(torque: float, diameter: float, factor: float, more: float) -> None:
    assert preload(torque, diameter, factor + more) <= preload(torque, diameter, factor)
    band = preload_band(torque, diameter, Interval(factor, factor + more))
    assert band.low <= band.high == preload(torque, diameter, factor)


@given(st.sampled_from(THREADS))
def test_a_screw_is_thinner_where_it_pulls_than_outside(thread: Thread) -> None:
    assert thread.hole_minor_most < thread.hole_pitch_most < thread.screw_major_least < thread.diameter
    assert thread.screw_pitch_least < thread.hole_pitch_most
    whole = 3.14159 / 4 * thread.diameter**2
    assert 0.5 < stress_area_inch(thread.diameter, thread.pitch) / whole < 0.91


@given(st.floats(1, 50), st.floats(0.2, 0.9))
def test_the_inch_standard_takes_a_little_less_of_the_core(diameter: float, pitch: float) -> None:
    metric_area, inch_area = stress_area(diameter, pitch), stress_area_inch(diameter, pitch)
    assert inch_area < metric_area
    # 0.0361 of the pitch on each diameter
    assert (metric_area / inch_area) ** 0.5 == pytest.approx(1 + 0.0361 * pitch / (diameter - 0.9743 * pitch))


@given(st.sampled_from(sorted(INCH_SIZES)))
def test_a_fine_thread_has_more_core_and_less_in_the_hole_than_a_coarse_one(size: str) -> None:
    _, *counts = INCH_SIZES[size]
    coarse, fine = (unified(size, count) for count in counts)
    assert stress_area_inch(fine.diameter, fine.pitch) > stress_area_inch(coarse.diameter, coarse.pitch)
    assert hole_thread_area(fine, 10) < hole_thread_area(coarse, 10)


@given(st.sampled_from(FINE))
def test_a_fine_metric_thread_likewise(one: tuple[float, float]) -> None:
    coarse, fine = metric(one[0]), metric(*one)
    assert fine.pitch < coarse.pitch
    assert stress_area(fine.diameter, fine.pitch) > stress_area(coarse.diameter, coarse.pitch)
    assert hole_thread_area(fine, 10) < hole_thread_area(coarse, 10)


@given(st.sampled_from(THREADS), st.floats(0.5, 40), st.floats(1, 3))
def test_twice_as_deep_holds_twice_as_much(thread: Thread, depth: float, times: float) -> None:
    for area in (hole_thread_area, screw_thread_area):
        assert area(thread, depth * times) == pytest.approx(area(thread, depth) * times)


@given(st.sampled_from(THREADS), st.floats(100, 50_000), st.floats(50, 500), st.floats(1, 3))
def test_softer_metal_asks_for_more_thread(thread: Thread, load: float, shear: float, softer: float) -> None:
    deep = engagement_needed(thread, load, shear)
    assert engagement_needed(thread, load, shear / softer) >= deep
    assert tear_out_force(thread, deep, shear) == pytest.approx(load)


@pytest.mark.parametrize("thread", [*map(metric, SIZES), *(unified(*one) for one in INCH)])
def test_the_rule_of_thumb_for_zinc_is_deep_enough(thread: Thread) -> None:
    """Steel of 800 MPa in die-cast alloy 3: two to two and a half diameters hold what breaks the screw."""
    diameter = thread.diameter
    breaks = stress_area(diameter, thread.pitch) * 800
    deep = engagement_needed(thread, breaks, ALLOY_3_SHEAR)
    assert 0.8 < deep / diameter < IN_ZINC.low
    # and where the strength in shear is not known, half of the tensile strength (283 MPa) still fits under it
    assert deep < engagement_needed(thread, breaks, shear_strength(283)) < IN_ZINC.low * diameter


@pytest.mark.parametrize(
    ("ask", "argument", "unit"),
    [
        (lambda: class_deviations(0.5, "H7"), "size", "mm"),
        (lambda: class_deviations(600, "H7"), "size", "mm"),
        (lambda: class_deviations(25, "seven"), "tolerance class", ""),
        (lambda: class_deviations(25, "H15"), "tolerance class", ""),
        (lambda: class_deviations(25, "A11"), "tolerance class", ""),
        (lambda: fit_room(25, "H7"), "fit", ""),
        (lambda: fit_room(25, "g6/H7"), "fit", ""),
        (lambda: stress_area(0, 1), "diameter", "mm"),
        (lambda: stress_area(5, 0), "pitch", "mm"),
        (lambda: stress_area(1, 2), "core left by the pitch", "mm"),
        (lambda: tightening_torque(-1, 5), "preload", "N"),
        (lambda: tightening_torque(1, -5), "diameter", "mm"),
        (lambda: preload(1, 5, 0), "nut factor", ""),
        (lambda: preload(-1, 5), "torque", "N m"),
        (lambda: preload_for(20, 640, 1.1), "share of the proof load", "share"),
        (lambda: preload_for(20, 0), "proof stress", "MPa"),
        (lambda: metric(7), "thread", "mm"),
        (lambda: metric(6, 20), "pitch", "mm"),
        (lambda: unified("9/16", 12), "thread", "in"),
        (lambda: unified("1/4", 24), "threads to the inch", ""),
        (lambda: stress_area_inch(0, 1), "diameter", "mm"),
        (lambda: stress_area_inch(5, 0), "pitch", "mm"),
        (lambda: stress_area_inch(1, 2), "core left by the pitch", "mm"),
        (lambda: hole_thread_area(metric(5), 0), "engagement", "mm"),
        (lambda: engagement_needed(metric(5), 0, 200), "load", "N"),
        (lambda: engagement_needed(metric(5), 1000, 0), "shear strength of the hole", "MPa"),
        (lambda: shear_strength(-1), "tensile strength", "MPa"),
        (lambda: Thread(5, 0.8, 5.1, 4.3, 4.6, 4.3), "outside of the screw", "mm"),
        (lambda: Thread(5, 0.8, 4.8, 4.3, 4.9, 4.3), "pitch diameter of the hole", "mm"),
    ],
)
def test_what_cannot_be_fastened(ask: object, argument: str, unit: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert (caught.value.argument, caught.value.unit) == (argument, unit)
