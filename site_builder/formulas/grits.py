"""Abrasive grades and the size of their grains: FEPA P / ISO 6344, FEPA F, CAMI.

The standards define coarse grades by sieves and fine ones by a median; publishers turn both into one diameter
and do not agree to the last micrometre. Sizes here are intervals that hold what is published.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import log
from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval

System = Literal["P", "F", "CAMI"]
SYSTEMS: tuple[System, ...] = ("P", "F", "CAMI")

MOST_STEP = 2.0
"""Most that one step may halve: from P80 to P120 (1.6) it does, from P80 to P180 (2.5) not (common practice)."""

# Micrometres. P: ISO 6344 and FEPA 43, as tabled by suppliers; P16, P24, P30, P60, P360 and P1000 from memory.
# F: FEPA 42-1 and 42-2, from memory. CAMI: two publishers, lower and higher; what they leave out, from memory.
_P: Mapping[int, float] = {
    12: 1815, 16: 1324, 20: 1000, 24: 764, 30: 642, 36: 538, 40: 425, 50: 336, 60: 269, 80: 201, 100: 162, 120: 125,
    150: 100, 180: 82, 220: 68, 240: 58.5, 280: 52.2, 320: 46.2, 360: 40.5, 400: 35.0, 500: 30.2, 600: 25.8,
    800: 21.8, 1000: 18.3, 1200: 15.3, 1500: 12.6, 2000: 10.3, 2500: 8.4,
}  # fmt: skip
_F: Mapping[int, float] = {
    24: 745, 30: 625, 36: 525, 46: 370, 54: 310, 60: 260, 80: 185, 100: 129, 120: 109, 150: 82, 180: 69, 220: 58,
    230: 53.0, 240: 44.5, 280: 36.5, 320: 29.2, 360: 22.8, 400: 17.3, 500: 12.8, 600: 9.3, 800: 6.5, 1000: 4.5,
    1200: 3.0,
}  # fmt: skip
_CAMI: Mapping[int, tuple[float, float]] = {
    16: (1320, 1320), 20: (905, 905), 24: (708, 715), 30: (632, 638), 36: (530, 535), 40: (425, 428),
    50: (348, 351), 60: (265, 268),
    80: (190, 192), 100: (140, 141), 120: (115, 116), 150: (92, 93), 180: (78, 82), 220: (66, 68), 240: (53.0, 53.5),
    320: (36.0, 36.0), 360: (28.0, 28.8), 400: (23.0, 23.6), 500: (19.7, 20.0), 600: (16.0, 16.0), 800: (12.2, 12.6),
    1000: (9.2, 9.2),
}  # fmt: skip
_MICRO_P, _MICRO_F, _MACRO_F = 1.0, 1.5, 15.0
_GRADE = re.compile(r"(P|F|CAMI)?\s*([0-9]{1,4})", re.IGNORECASE)
_MICRON = 1e-6


@dataclass(frozen=True, slots=True, order=True)
class Grit:
    """A grade of one system: P80, F220, CAMI 180. A bare number is CAMI, as on North American paper."""

    system: System
    number: int

    def __str__(self) -> str:
        return f"CAMI {self.number}" if self.system == "CAMI" else f"{self.system}{self.number}"


@dataclass(frozen=True, slots=True)
class CoarseStep:
    """Two grits in a row whose step is too large, how many times finer the second is, and what belongs between."""

    before: Grit
    after: Grit
    times: float
    between: tuple[Grit, ...]


def grit(text: str) -> Grit:
    """The grade a text names. Raises ``Impossible`` for one that no table here has.

    Source: designations of ISO 6344-1, FEPA 42-1 and CAMI (ANSI B74.18).
    """
    match = _GRADE.fullmatch(text.strip())
    if match:
        letters = (match[1] or "CAMI").upper()
        system: System = "P" if letters == "P" else "F" if letters == "F" else "CAMI"
        found = Grit(system, int(match[2]))
        if found in _sizes(system):
            return found
    raise Impossible("grit", "", text, "must be a grade of FEPA P, FEPA F or CAMI")


@cache
def _sizes(system: System) -> Mapping[Grit, Interval]:
    if system == "CAMI":
        return {Grit(system, n): Interval(low * _MICRON, high * _MICRON) for n, (low, high) in _CAMI.items()}
    table, fine = (_P, 240) if system == "P" else (_F, 230)
    micro, macro = (_MICRO_P, 0.0) if system == "P" else (_MICRO_F, _MACRO_F)
    return {
        Grit(system, n): Interval.around(size * _MICRON, (micro if n >= fine else macro) * _MICRON)
        for n, size in table.items()
    }


def grain_size(grade: str | Grit) -> Interval:
    """Metres across an average grain of the grade, as far apart as publishers put it.

    Raises ``Impossible`` for a grade that no table here has. Source: ISO 6344, FEPA 42 and 43, CAMI, as tabled by
    suppliers.
    """
    found = grit(grade) if isinstance(grade, str) else grade
    sizes = _sizes(found.system)
    if found not in sizes:
        raise Impossible("grit", "", found, "must be a grade of FEPA P, FEPA F or CAMI")
    return sizes[found]


def nearest_grit(size: float, system: System) -> Grit:
    """The grade of a system whose grains come nearest to ``size`` (m).

    Raises ``Impossible`` for a size of nothing. Source: the tables of ``grain_size``.
    """
    guards.above_zero("grain size", "m", size)
    guards.one_of("system of grits", system, SYSTEMS)
    sizes = _sizes(system)
    return min(sizes, key=lambda grade: abs(log(sizes[grade].middle / size)))


def coarse_steps(sequence: Sequence[str | Grit], most: float = MOST_STEP) -> tuple[CoarseStep, ...]:
    """Steps of a sequence, coarse to fine, in which the finer grit is too fine to take out the scratches before it.

    A step is too large when its grains are more than ``most`` times smaller; between then holds the fewest grades,
    of the finer grit's system, that make no step too large, and of these the most even row. A step back to a coarser
    grit is none. Raises ``Impossible`` for an empty sequence, an unknown grade, or ``most`` of 1 or less.

    Source: common practice (do not skip more than one grade); sandpaper makers' advice, 80 to 120 to 180.
    """
    guards.some("sequence", "grit", sequence)
    if not guards.finite("most", "times", most) > 1:
        raise Impossible("most", "times", most, "must be more than 1")
    grades = [grit(grade) if isinstance(grade, str) else grade for grade in sequence]
    found = []
    for before, after in pairwise(grades):
        coarse, fine = grain_size(before).middle, grain_size(after).middle
        times = coarse / fine
        if times <= most:
            continue
        found.append(CoarseStep(before, after, times, _between(before, after, most)))
    return tuple(found)


def _between(before: Grit, after: Grit, most: float) -> tuple[Grit, ...]:
    """Shortest way over the grades that lie between; a gap in the table itself is stepped over."""
    coarse, fine = grain_size(before).middle, grain_size(after).middle
    sizes = {grade: size.middle for grade, size in _sizes(after.system).items() if fine < size.middle < coarse}
    sizes[after] = fine
    ways: list[tuple[int, int, float, tuple[Grit, ...], float]] = [(0, 0, 1.0, (), coarse)]
    for grade, size in sorted(sizes.items(), key=lambda item: -item[1]):
        reached = (
            (wide + (here / size > most), steps + 1, max(largest, here / size), (*way, grade), size)
            for wide, steps, largest, way, here in ways if here > size
        )
        ways.append(min(reached))
    return ways[-1][3][:-1]
