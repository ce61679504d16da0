"""Spinning: blanks, reductions, walls and sheets, against handbooks, worked examples and geometry."""

from __future__ import annotations

from math import cos, pi, radians, sin

from site_builder.formulas.blanks import blank_of_area, blank_of_cap, blank_of_cone, blank_of_cup, blank_of_profile
from site_builder.formulas.profile import Arc, Line, Piece, Point, circle_through, surface_area
from site_builder.formulas.reductions import anneals_due, drawing_ratio, passes, reduction, total_reduction
from site_builder.formulas.sheet_cutting import SheetCut, discs_from_sheet, staggered_rows, straight_rows
from site_builder.formulas.spinning_wall import sheared_wall, sheet_for, steepest
from tests.outside.registry import Topic
from tests.outside.units import MILLIMETRE

TOPIC = Topic("spinning", "Spinning and sheet")

CORNER = (50 - 15 + 15 * cos(radians(-45)), 15 + 15 * sin(radians(-45)))
PROFILES: dict[str, tuple[Point, tuple[Piece, ...]]] = {
    "frustum": ((0, 0), (Line((1, 0)), Line((2, 2.5)))),
    "sphere": ((0, -0.5), (Arc((0.5, 0), (0, 0.5)),)),
    "torus": ((4, 0), (Arc((3, 1), (2, 0)), Arc((3, -1), (4, 0)))),
    "hemisphere": ((0, 0), (Arc((50 * sin(pi / 4), 50 - 50 * cos(pi / 4)), (50, 50)),)),
    "cap": ((0, 0), (Arc((30, 170 / 3 - ((170 / 3) ** 2 - 900) ** 0.5), (50, 30)),)),
    "cyl-hemi": ((0, 0), (Arc((50 * sin(pi / 4), 50 - 50 * cos(pi / 4)), (50, 50)), Line((50, 100)))),
    "corner": ((0, 0), (Line((35, 0)), Arc(CORNER, (50, 15)), Line((50, 50)))),
}


@TOPIC.check(blank_of_area, "frustum-blank", "frustum-blank-measured")
def from_area(area_in2: float) -> float:
    return blank_of_area(area_in2)


@TOPIC.check(
    blank_of_cup,
    *("pan-2ft", "cylinder-100-25", "cylinder-100-50", "cylinder-100-100"),
    *("cylinder-2-3", "cylinder-24-18", "cup-flange", "pot-346"),
)
def cup(d: float, h: float, d2: float | None = None) -> float:
    return blank_of_cup(d, h, flange=d2)


@TOPIC.check(blank_of_cone, "cone", "cone-flange", "cone-frustum")
def cone(d: float, h: float, d2: float | None = None, bottom: float = 0.0) -> float:
    return blank_of_cone(d, h, bottom, flange=d2)


@TOPIC.check(blank_of_cap, "cap", "hemisphere", "hemisphere-flange")
def cap(d: float, h: float | None = None, d2: float | None = None) -> float:
    return blank_of_cap(d, d / 2 if h is None else h, flange=d2)


@TOPIC.check(surface_area, "profile-frustum", "profile-sphere", "profile-torus")
def area(shape: str) -> float:
    return surface_area(*PROFILES[shape])


@TOPIC.check(surface_area, "frustum-area")
def frustum_area(D_in: float, d_in: float, h_in: float) -> float:  # noqa: N803 (as the book names them)
    return surface_area((0, 0), [Line((d_in / 2, 0)), Line((D_in / 2, h_in))])


@TOPIC.check(blank_of_profile, "profile-hemisphere", "profile-cap", "profile-corner")
def profile(shape: str) -> float:
    return blank_of_profile(*PROFILES[shape])


@TOPIC.check(blank_of_profile, "profile-cyl-hemi")
def trimmed_profile(shape: str) -> float:
    """The upper 20 of the wall as trim: the blank must be the same."""
    start, pieces = PROFILES[shape]
    return blank_of_profile(start, [*pieces[:-1], Line((50, 80))], trim=20)


@TOPIC.check(blank_of_profile, "cyl-hemi")
def round_bottom(d: float, h: float) -> float:
    r = d / 2
    quarter = Arc((r * sin(pi / 4), r - r * cos(pi / 4)), (r, r))
    return blank_of_profile((0, 0), [quarter, Line((r, h))])


@TOPIC.check(circle_through, "circle-345", "circle-unit")
def circle(points: list[Point]) -> list[float]:
    found = circle_through(*points)
    return [*found.centre, found.radius]


@TOPIC.check(sheared_wall, "sine-law-30", "sine-law-45", "sine-law-15")
def wall(t0_mm: float, alpha_deg: float) -> float:
    return sheared_wall(t0_mm * MILLIMETRE, alpha_deg) / MILLIMETRE


@TOPIC.check(sheet_for, "sheet-30", "sheet-45")
def sheet(wall_mm: float, alpha_deg: float) -> float:
    return sheet_for(wall_mm * MILLIMETRE, alpha_deg) / MILLIMETRE


@TOPIC.check(steepest, "steepest-half", "steepest-15")
def half_angle(sheet_mm: float, wall_mm: float) -> float:
    return steepest(sheet_mm * MILLIMETRE, wall_mm * MILLIMETRE)


@TOPIC.check(reduction, "strip-14", "cup-138")
def share(before: float, after: float) -> float:
    return reduction(before, after)


@TOPIC.check(total_reduction, "total-45", "total-redraw")
def altogether(reductions: list[float]) -> float:
    return total_reduction(reductions)


@TOPIC.check(drawing_ratio, "ratio-pot", "ratio-redraw")
def ratio(blank: float, shell: float) -> float:
    return drawing_ratio(blank, shell)


@TOPIC.check(passes, "passes-shell", "passes-pot")
def diameters(blank: float, finished: float, first: float, then: float) -> tuple[float, ...]:
    """``first`` and ``then`` are drawing ratios here, as printed."""
    return passes(blank, finished, 1 - 1 / first, 1 - 1 / then)


@TOPIC.check(anneals_due, "anneal-shell", "anneal-halves")
def before_which(reductions: list[float], most: float) -> tuple[int, ...]:
    return anneals_due(reductions, most)


def _square_waste(cut: SheetCut, length: float, width: float) -> float:
    return cut.waste * length * width


@TOPIC.check(straight_rows, "discs-straight", "discs-straight-coil")
def in_straight_rows(length: float, width: float, disc: float, gap: float) -> int:
    return straight_rows(length, width, disc, gap).discs


@TOPIC.check(straight_rows, "waste-straight")
def waste_of_straight_rows(length: float, width: float, disc: float, gap: float) -> float:
    return _square_waste(straight_rows(length, width, disc, gap), length, width)


@TOPIC.check(straight_rows, "density-straight")
def used_by_straight_rows(length: float, width: float, disc: float, gap: float) -> float:
    return 1 - straight_rows(length, width, disc, gap).waste


@TOPIC.check(staggered_rows, "discs-staggered")
def in_nesting_rows(length: float, width: float, disc: float, gap: float) -> int:
    return staggered_rows(length, width, disc, gap).discs


@TOPIC.check(staggered_rows, "waste-staggered")
def waste_of_nesting_rows(length: float, width: float, disc: float, gap: float) -> float:
    return _square_waste(staggered_rows(length, width, disc, gap), length, width)


@TOPIC.check(staggered_rows, "density-nested")
def used_by_nesting_rows(length: float, width: float, disc: float, gap: float) -> float:
    return 1 - staggered_rows(length, width, disc, gap).waste


@TOPIC.check(discs_from_sheet, "discs-best", "discs-best-coil")
def best(length: float, width: float, disc: float, gap: float) -> int:
    return discs_from_sheet(length, width, disc, gap).discs
