"""Metal laid down by a current, by Faraday's law.

``efficiency`` is the share of the current that lays down metal; the rest makes hydrogen. The bath's maker gives
it. Thickness is the average over the area: edges get more and hollows less.
"""

from __future__ import annotations

from site_builder.formulas import guards
from site_builder.formulas.plating_metals import PlatingMetal

FARADAY = 96485.33212
"""C/mol, CODATA 2018."""


def charge_equivalent(metal: PlatingMetal) -> float:
    """Kilograms that one coulomb lays down when all of it does; times 3.6e6 it is grams an ampere-hour.

    Source: Faraday's law; MISUMI tutorial 166, table 1.
    """
    return metal.molar_mass / (metal.valence * FARADAY)


def mass_deposited(current: float, time: float, metal: PlatingMetal, efficiency: float = 1.0) -> float:
    """Kilograms laid down by so many amperes in so many seconds.

    Raises ``Impossible`` for a current or time under 0 or an efficiency outside 0 to 1. Source: Faraday's law.
    """
    guards.not_negative("current", "A", current)
    guards.not_negative("time", "s", time)
    return current * time * charge_equivalent(metal) * guards.kept_share("efficiency", efficiency)


def thickness_deposited(current_density: float, time: float, metal: PlatingMetal, efficiency: float = 1.0) -> float:
    """Metres laid down at so many A/m² (1 A/dm² is 100) in so many seconds.

    Raises ``Impossible`` as ``mass_deposited``. Source: Faraday's law; MISUMI tutorial 166, table 1.
    """
    guards.not_negative("current density", "A/m²", current_density)
    return mass_deposited(current_density, time, metal, efficiency) / metal.density


def plating_time(thickness: float, current_density: float, metal: PlatingMetal, efficiency: float = 1.0) -> float:
    """Seconds to lay down ``thickness`` metres at so many A/m².

    Raises ``Impossible`` for no current density or figures that are none. Source: as ``thickness_deposited``.
    """
    guards.not_negative("thickness", "m", thickness)
    guards.above_zero("current density", "A/m²", current_density)
    return thickness / thickness_deposited(current_density, 1.0, metal, efficiency)


def metal_on(area: float, thickness: float, density: float) -> float:
    """Kilograms of plate of that thickness (m) on that area (m²), at so many kg/m³.

    Raises ``Impossible`` for figures that are none. Source: definition of density; ounces to the square foot.
    """
    guards.not_negative("area", "m²", area)
    guards.not_negative("thickness", "m", thickness)
    return area * thickness * guards.above_zero("density", "kg/m³", density)


def thickness_from_gain(gain: float, area: float, density: float) -> float:
    """Metres of plate on average, from the weight (kg) the pieces gained over an area (m²).

    What was ordered is a least thickness at a point, which is less than the average: weighing finds a thin lot, it
    does not pass one. Raises ``Impossible`` for figures that are none. Source: as ``metal_on``.
    """
    guards.not_negative("gain", "kg", gain)
    return gain / (guards.above_zero("area", "m²", area) * guards.above_zero("density", "kg/m³", density))
