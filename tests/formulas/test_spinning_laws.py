"""What holds of spun shells, sheared walls and sheets whatever the figures."""

from __future__ import annotations

from itertools import pairwise
from math import asin, cos, pi, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from site_builder.formulas.blanks import blank_of_area, blank_of_cap, blank_of_cone, blank_of_cup, blank_of_profile
from site_builder.formulas.profile import Arc, Line, Piece, Point, circle_through, surface_area
from site_builder.formulas.reductions import anneals_due, drawing_ratio, passes, reduction, total_reduction
from site_builder.formulas.sheet_cutting import discs_from_sheet, staggered_rows, straight_rows
from site_builder.formulas.spinning_wall import sheared_wall, sheet_for, steepest

sizes = st.floats(0.01, 2)
scales = st.sampled_from([0.001, 0.0254, 1 / 3, 7.0, 1000.0])
angles = st.floats(1, 90)
points = st.tuples(st.floats(0, 10), st.floats(-10, 10))


@given(sizes, sizes, st.floats(0, 1), scales)
def test_in_inches_or_millimetres_the_blank_is_the_same(d: float, h: float, flange: float, unit: float) -> None:
    assert blank_of_cup(d * unit, h * unit, (d + flange) * unit) == pytest.approx(blank_of_cup(d, h, d + flange) * unit)
    assert blank_of_cone(d * unit, h * unit) == pytest.approx(blank_of_cone(d, h) * unit)
    assert blank_of_cap(d * unit, h * unit) == pytest.approx(blank_of_cap(d, h) * unit)


@given(sizes, sizes, sizes)
def test_a_deeper_shell_needs_a_larger_blank(d: float, h: float, more: float) -> None:
    for blank in (blank_of_cup, blank_of_cone, blank_of_cap):
        assert blank(d, h + more) > blank(d, h) > 0


@given(sizes, sizes, st.floats(0, 0.1))
def test_trim_is_so_much_more_wall(d: float, h: float, trim: float) -> None:
    assert blank_of_cup(d, h, trim=trim) == pytest.approx(blank_of_cup(d, h + trim))
    assert blank_of_cup(d, h, 2 * d, trim) == pytest.approx(blank_of_cup(d, h, 2 * d + 2 * trim))


@given(sizes)
def test_shells_without_height_are_discs(d: float) -> None:
    assert blank_of_cup(d, 0) == pytest.approx(d)
    assert blank_of_cone(d, 0) == pytest.approx(d)
    assert blank_of_cap(d, 1e-9) == pytest.approx(d)
    assert blank_of_cup(d, 0, 2 * d) == pytest.approx(2 * d)


@given(sizes, sizes, st.floats(0, 1))
def test_a_shell_by_its_formula_and_by_its_profile(d: float, h: float, narrow: float) -> None:
    r = d / 2
    assert blank_of_profile((0, 0), [Line((r, 0)), Line((r, h))]) == pytest.approx(blank_of_cup(d, h))
    bottom = d * narrow
    cone: list[Piece] = [Line((bottom / 2, 0)), Line((r, h))]
    assert blank_of_profile((0, 0), cone) == pytest.approx(blank_of_cone(d, h, bottom))


@given(sizes, st.floats(0.05, 0.95))
def test_a_cap_by_its_formula_and_by_an_arc(mouth: float, share: float) -> None:
    """The arc runs from the pole to the rim of a sphere, by any height up to the whole half."""
    r = mouth / 2
    h = r * share
    sphere = (r**2 + h**2) / (2 * h)
    half = _pole_angle(sphere, r) / 2
    through = (sphere * sin(half), sphere - sphere * cos(half))
    assert blank_of_profile((0, 0), [Arc(through, (r, h))]) == pytest.approx(blank_of_cap(mouth, h), rel=1e-6)


def _pole_angle(sphere: float, r: float) -> float:
    """From the pole of a sphere to where it is ``r`` from its axis, in radians."""
    return asin(min(1.0, r / sphere))


@given(points, points, points)
def test_a_circle_goes_through_its_three_points(a: Point, b: Point, c: Point) -> None:
    twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    assume(abs(twice) > 0.1)
    circle = circle_through(a, b, c)
    for x, y in (a, b, c):
        assert ((x - circle.centre[0]) ** 2 + (y - circle.centre[1]) ** 2) ** 0.5 == pytest.approx(circle.radius)
    start, end = circle.at(circle.start), circle.at(circle.start + circle.sweep)
    assert start == pytest.approx(a, abs=1e-6)
    assert end == pytest.approx(c, abs=1e-6)


@given(st.lists(points, min_size=2, max_size=6))
def test_a_profile_read_backwards_has_the_same_area(row: list[Point]) -> None:
    there = surface_area(row[0], [Line(to) for to in row[1:]])
    back = surface_area(row[-1], [Line(to) for to in row[-2::-1]])
    assert there == pytest.approx(back)


@given(st.floats(1, 5), st.floats(0.1, 0.9), st.floats(0, 360), st.floats(10, 340))
def test_an_arc_is_what_many_short_lines_come_to(far: float, radius: float, start: float, sweep: float) -> None:
    def at(degree: float) -> Point:
        return far + radius * cos(radians(degree)), radius * sin(radians(degree))

    arc = surface_area(at(start), [Arc(at(start + sweep / 2), at(start + sweep))])
    lines = [Line(at(start + sweep * step / 720)) for step in range(1, 721)]
    assert arc == pytest.approx(surface_area(at(start), lines), rel=1e-4)


def test_a_hood_of_two_pieces() -> None:
    """A cap 238 mm wide and 60 mm high with a straight rim of 12 mm and 4 mm to trim.

    Cap: 238² + 4 × 60² = 71 044; band: 4 × 238 × 16 = 15 232; √86 276 = 293.7 mm.
    """
    cap_square = blank_of_cap(0.238, 0.060) ** 2
    band = 4 * 0.238 * (0.012 + 0.004)
    sphere = (119**2 + 60**2) / 120
    half = _pole_angle(sphere, 119) / 2
    arc = Arc((sphere * sin(half) / 1000, (sphere - sphere * cos(half)) / 1000), (0.119, 0.060))
    blank = blank_of_profile((0, 0), [arc, Line((0.119, 0.072))], trim=0.004)
    assert blank == pytest.approx((cap_square + band) ** 0.5)
    assert blank == pytest.approx(0.2937, abs=0.0001)


@given(sizes)
def test_a_blank_has_the_area_it_was_found_for(d: float) -> None:
    assert blank_of_area(pi / 4 * d**2) == pytest.approx(d)


@given(sizes, angles, angles)
def test_a_flatter_cone_keeps_more_of_the_sheet(sheet: float, a: float, b: float) -> None:
    steep, flat = sorted((a, b))
    assert sheared_wall(sheet, steep) <= sheared_wall(sheet, flat) <= sheet
    assert sheet_for(sheared_wall(sheet, a), a) == pytest.approx(sheet)
    assert steepest(sheet, sheared_wall(sheet, a)) == pytest.approx(a, rel=1e-4)


def test_a_flat_disc_is_not_thinned() -> None:
    assert sheared_wall(0.0008, 90) == pytest.approx(0.0008)


@given(st.lists(st.floats(0, 0.9), min_size=1, max_size=8))
def test_reductions_in_any_order_come_to_the_same(row: list[float]) -> None:
    assert total_reduction(row) == pytest.approx(total_reduction(row[::-1]))
    assert total_reduction(row) >= max(row) - 1e-12


@given(sizes, st.floats(0.05, 1), st.floats(0.05, 0.6), st.floats(0.05, 0.6))
def test_no_pass_takes_more_than_it_may(blank: float, left: float, first: float, then: float) -> None:
    finished = blank * left
    row = (blank, *passes(blank, finished, first, then))
    taken = [reduction(before, after) for before, after in pairwise(row)]
    assert all(each <= (first if n == 0 else then) + 1e-9 for n, each in enumerate(taken))
    assert row[-1] == pytest.approx(finished)
    if taken:
        assert total_reduction(taken) == pytest.approx(reduction(blank, finished), abs=1e-9)
        assert drawing_ratio(blank, finished) == pytest.approx(1 / (1 - total_reduction(taken)))


@given(st.lists(st.floats(0, 0.6), min_size=1, max_size=10), st.floats(0.1, 0.9))
def test_between_anneals_no_stretch_is_worked_too_far(row: list[float], most: float) -> None:
    due = anneals_due(row, most)
    starts = (0, *due, len(row))
    for begin, end in pairwise(starts):
        stretch = row[begin:end]
        assert len(stretch) == 1 or total_reduction(stretch) <= most + 1e-6


@given(st.lists(st.floats(0, 0.6), min_size=1, max_size=10), st.floats(0.1, 0.8))
def test_a_softer_metal_is_never_annealed_more_often(row: list[float], most: float) -> None:
    assert len(anneals_due(row, most + 0.1)) <= len(anneals_due(row, most))


@given(sizes, sizes, st.floats(0.02, 1), st.floats(0, 0.05), st.floats(0, 0.05), scales)
def test_a_sheet_cut_in_inches_or_millimetres(
    length: float, width: float, disc: float, gap: float, edge: float, unit: float
) -> None:
    cut = discs_from_sheet(length, width, disc, gap, edge)
    turned = discs_from_sheet(width, length, disc, gap, edge)
    assert cut.discs == turned.discs
    assert 0 <= cut.waste <= 1
    assert cut.discs >= straight_rows(length, width, disc, gap, edge).discs
    larger = discs_from_sheet(length * 1.0001 * unit, width * 1.0001 * unit, disc * unit, gap * unit, edge * unit)
    assert larger.discs >= cut.discs


@given(sizes, sizes, st.floats(0.02, 1), st.floats(0, 0.05))
def test_discs_never_take_more_than_nesting_allows(length: float, width: float, disc: float, gap: float) -> None:
    """π/√12 is the densest there is."""
    cut = staggered_rows(length, width, disc, gap)
    assert 1 - cut.waste <= pi / 12**0.5 + 1e-9


def test_a_disc_larger_than_the_sheet() -> None:
    cut = discs_from_sheet(0.3, 0.3, 0.31)
    assert (cut.discs, cut.rows, cut.waste) == (0, 0, 1)


def test_discs_of_310_mm_from_a_sheet_of_2000_by_1000() -> None:
    """10 mm between them: six in a row, three rows, straight; nesting gives no more, so straight it is."""
    cut = discs_from_sheet(2.0, 1.0, 0.31, gap=0.01)
    assert (cut.discs, cut.rows, cut.laid) == (18, 3, "straight")
    assert cut.waste == pytest.approx(1 - 18 * pi / 4 * 0.31**2 / 2)
