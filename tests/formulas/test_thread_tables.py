"""Sizes of threads against the rows of the standards' tables, and the rows against the standards' formulas."""

from __future__ import annotations

from itertools import pairwise
from math import log, sqrt

import pytest

from site_builder.formulas.inch_threads import unified
from site_builder.formulas.threads import metric

# ASME B1.1, classes 2A and 2B, in inches, from memory: screw outside least, pitch diameter least; hole inner
# diameter most (printed to 0.001 in), pitch diameter most.
ROWS = {
    ("#6", 32): (0.1312, 0.1141, 0.114, 0.1214), ("#6", 40): (0.1321, 0.1184, 0.119, 0.1252),
    ("#8", 32): (0.1571, 0.1399, 0.139, 0.1475), ("#8", 36): (0.1577, 0.1424, 0.142, 0.1496),
    ("#10", 24): (0.1818, 0.1586, 0.156, 0.1672), ("#10", 32): (0.1831, 0.1658, 0.164, 0.1736),
    ("#12", 24): (0.2078, 0.1845, 0.181, 0.1933), ("#12", 28): (0.2085, 0.1886, 0.186, 0.1970),
    ("1/4", 20): (0.2408, 0.2127, 0.207, 0.2224), ("1/4", 28): (0.2425, 0.2225, 0.220, 0.2311),
    ("5/16", 18): (0.3026, 0.2712, 0.265, 0.2817), ("5/16", 24): (0.3042, 0.2806, 0.277, 0.2902),
    ("3/8", 16): (0.3643, 0.3287, 0.321, 0.3401), ("3/8", 24): (0.3667, 0.3430, 0.340, 0.3528),
    ("7/16", 14): (0.4258, 0.3850, 0.376, 0.3972), ("7/16", 20): (0.4281, 0.3995, 0.395, 0.4104),
    ("1/2", 13): (0.4876, 0.4435, 0.434, 0.4565), ("1/2", 20): (0.4906, 0.4619, 0.457, 0.4731),
}
INCH = 25.4
PREFERRED = 10 ** (1 / 40)
"""The step of the series R 40, to which ISO 965-1 rounds its tolerances."""
METRIC = [(2, 0.4), (2.5, 0.35), (2.5, 0.45), (3, 0.5), (3.5, 0.6), (4, 0.7), (4, 0.5), (5, 0.8), (6, 1), (6, 0.75),
          (8, 1.25), (8, 1), (10, 1.5), (10, 1.25), (12, 1.75), (12, 1.5), (12, 1.25), (12, 1), (16, 2), (16, 1.5),
          (20, 2.5), (20, 2), (24, 3), (24, 2), (24, 1.5), (24, 1)]


@pytest.mark.parametrize(("name", "row"), ROWS.items(), ids=lambda one: "-".join(map(str, one)))
def test_the_formulas_give_what_the_inch_tables_print(name: tuple[str, int], row: tuple[float, ...]) -> None:
    thread = unified(*name)
    outside, pitch, inner, hole = row
    # the tables round what they add up to 0.0001 in each
    assert thread.screw_major_least / INCH == pytest.approx(outside, abs=0.00011)
    assert thread.screw_pitch_least / INCH == pytest.approx(pitch, abs=0.00012)
    assert thread.hole_pitch_most / INCH == pytest.approx(hole, abs=0.00011)
    assert thread.hole_minor_most / INCH == pytest.approx(inner, abs=0.00055)


def _step(diameter: float) -> float:
    """The middle of the step of ISO 965-1 in which a diameter lies."""
    ends = (1.4, 2.8, 5.6, 11.2, 22.4, 45)
    low, high = next(pair for pair in pairwise(ends) if pair[0] < diameter <= pair[1])
    return sqrt(low * high)


@pytest.mark.parametrize(("diameter", "pitch"), METRIC)
def test_the_metric_table_lies_within_two_steps_of_the_formulas_it_was_rounded_from(
    diameter: float, pitch: float
) -> None:
    """ISO 965-1, grade 6 (from memory): T_d2 = 90 P^0.4 d^0.1, 1.32 of it for the hole, T_d = 180 P^2/3 - 3.15/√P."""
    thread = metric(diameter, pitch)
    of_pitch = 90 * pitch**0.4 * _step(diameter) ** 0.1
    gap = 15 + 11 * pitch
    basic = diameter - 0.649519 * pitch
    inner = 433 * pitch - 190 * pitch**1.22 if pitch < 1 else 230 * pitch**0.7
    formulas = {
        (basic - thread.screw_pitch_least) * 1000: gap + of_pitch,
        (thread.hole_pitch_most - basic) * 1000: 1.32 * of_pitch,
        (diameter - thread.screw_major_least) * 1000: gap + 180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch),
        (thread.hole_minor_most - diameter + 1.082532 * pitch) * 1000: inner,
    }
    for ours, formula in formulas.items():
        assert abs(log(ours / formula)) < 2 * log(PREFERRED)
