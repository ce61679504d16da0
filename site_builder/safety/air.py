"""Measured fume and dust against their limits. Nothing here guesses what is in the air: only measuring tells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

SHIFT = 8.0


@dataclass(frozen=True, slots=True)
class Breathed:
    """So many ``hours`` in air with a measured ``concentration``. Raises ``Impossible`` for figures that are none."""

    concentration: float
    hours: float

    def __post_init__(self) -> None:
        guards.not_negative("concentration", "mg/m³ or ppm", self.concentration)
        if guards.not_negative("time in the air", "h", self.hours) > 24:
            raise Impossible("time in the air", "h", self.hours, "must fit into a day")


def shift_average(spells: Sequence[Breathed]) -> float:
    """Eight-hour average of measured concentrations, in their unit; hours that are not told count as clean.

    Raises ``Impossible`` for no measurement, or more hours than a day has. Source: 29 CFR 1910.1000(d)(1).
    """
    guards.some("measurements of the air", "mg/m³ or ppm", spells)
    hours = fsum(spell.hours for spell in spells)
    if hours > 24 + 1e-9:
        raise Impossible("time in the air", "h", hours, "must fit into a day")
    return fsum(spell.concentration * spell.hours for spell in spells) / SHIFT


def mixture_share(averages: Sequence[tuple[float, float]]) -> float:
    """How much of the limit is used up by substances that harm alike: 1 is all of it.

    Each is its eight-hour average and its limit, in one unit. Raises ``Impossible`` for none, an average under 0
    or a limit of nothing. Source: 29 CFR 1910.1000(d)(2), sum of C / L.
    """
    guards.some("substances", "", averages)
    return fsum(
        guards.not_negative("average", "mg/m³ or ppm", average) / guards.above_zero("limit", "mg/m³ or ppm", limit)
        for average, limit in averages
    )
