"""Unified inch threads, coarse and fine, by the size and the threads to the inch that a shop calls them by."""

from __future__ import annotations

from collections.abc import Mapping
from math import cbrt, sqrt

from site_builder.formulas.errors import Impossible
from site_builder.formulas.threads import Thread

MM = 25.4
"""Millimetres to the inch, by definition."""

SIZES: Mapping[str, tuple[float, int, int]] = {
    "#4": (0.112, 40, 48), "#5": (0.125, 40, 44), "#6": (0.138, 32, 40), "#8": (0.164, 32, 36),
    "#10": (0.190, 24, 32), "#12": (0.216, 24, 28), "1/4": (0.25, 20, 28), "5/16": (0.3125, 18, 24),
    "3/8": (0.375, 16, 24), "7/16": (0.4375, 14, 20), "1/2": (0.5, 13, 20),
}
"""Diameter in inches, and threads to the inch of the coarse (UNC) and the fine (UNF) series: ASME B1.1."""

_SMALL = 0.25
"""Inches from which the inner diameter of the hole has its plain tolerance."""


def unified(size: str, threads_per_inch: int) -> Thread:
    """The inch thread of ``SIZES`` with so many threads, in mm: screw of class 2A in a hole of class 2B.

    Sizes follow from the formulas over one diameter of engagement; the printed tables round them to 0.0001 in, the
    inner diameter of the hole to 0.001 in. Raises ``Impossible`` for any other size or number of threads. Source:
    ASME B1.1, limits of size.
    """
    if size not in SIZES:
        raise Impossible("thread", "in", size, f"must be one of the inch sizes {', '.join(SIZES)}")
    diameter, coarse, fine = SIZES[size]
    if threads_per_inch not in (coarse, fine):
        raise Impossible("threads to the inch", "", threads_per_inch,
                         f"must be {coarse} (UNC) or {fine} (UNF) at {size}")
    pitch = 1 / threads_per_inch
    by_pitch = cbrt(pitch**2)
    # Tolerance of the screw's pitch diameter, class 2A; the allowance and the tolerance of the hole are shares of it.
    tolerance = 0.0015 * cbrt(diameter) + 0.0015 * sqrt(diameter) + 0.015 * by_pitch
    allowance = 0.3 * tolerance
    pitch_diameter = diameter - 0.64951905 * pitch
    sizes = (
        diameter,
        pitch,
        diameter - allowance - 0.060 * by_pitch,
        pitch_diameter - allowance - tolerance,
        pitch_diameter + 1.3 * tolerance,
        diameter - 1.08253175 * pitch + _minor_tolerance(diameter, pitch),
    )
    return Thread(*(MM * one for one in sizes))


def _minor_tolerance(diameter: float, pitch: float) -> float:
    """Tolerance in inches of the hole's inner diameter, class 2B."""
    plain = 0.25 * pitch - 0.4 * pitch**2
    if diameter >= _SMALL:
        return plain
    return min(max(0.05 * cbrt(pitch**2) + 0.03 * pitch / diameter - 0.002, plain), 0.394 * pitch)
