"""Metal between frozen and boiling: how far over its melting range it is, and how hard zinc fumes there."""

from __future__ import annotations

from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

State = Literal["solid", "mushy", "liquid"]

ZINC_BOILS = 907.0
"""°C at the pressure of the air, CRC Handbook (from memory)."""
LITTLE_SUPERHEAT = 10.0
"""Kelvin over the liquidus: data sheets of zinc alloys do not go lower than 11."""
HARD_FUME = 1_013.25
"""Pascals: zinc strives out with a hundredth of the pressure of the air. Common practice keeps it well below."""
MUCH_SUPERHEAT = 1 / 6
"""Share of the liquidus in kelvin that is much over it: zinc alloys 110 K, aluminium 150, brass 200. Common
practice."""
_ATMOSPHERE = 101_325.0
_KELVIN = 273.15


def superheat(temperature: float, liquidus: float) -> float:
    """Kelvin by which metal at ``temperature`` (°C) is hotter than its liquidus (°C); less than 0 below it.

    Raises ``Impossible`` under absolute zero. Source: definition, ASM Handbook vol. 15, Casting.
    """
    return guards.temperature("temperature", temperature) - guards.temperature("liquidus", liquidus)


def state(temperature: float, solidus: float, liquidus: float) -> State:
    """Solid up to the solidus, liquid from the liquidus, mushy between; all in °C.

    Raises ``Impossible`` under absolute zero and for a liquidus under the solidus.
    Source: definition of the two, ASM Handbook vol. 15, Casting.
    """
    guards.temperature("solidus", solidus)
    guards.at_least("liquidus", "°C", liquidus, solidus, "solidus")
    if guards.temperature("temperature", temperature) >= liquidus:
        return "liquid"
    return "solid" if temperature <= solidus else "mushy"


def zinc_vapour_pressure(temperature: float) -> float:
    """Pascals with which pure zinc strives into the air at ``temperature`` (°C): a measure of its fume.

    It rises about tenfold for each 90 to 120 K. A zinc alloy fumes a little less, by its share of zinc.
    Two-term equations, good to about 5 % up to 750 K and to 12 % at the boiling point. Raises ``Impossible``
    outside 25 °C to the boiling point.

    Source: Alcock, Itkin and Horrigan, Canadian Metallurgical Quarterly 23 (1984) 309, as tabled in the CRC
    Handbook (coefficients from memory).
    """
    guards.temperature("temperature", temperature)
    if not 25 <= temperature <= ZINC_BOILS:
        raise Impossible("temperature", "°C", temperature, f"must lie between 25 and {ZINC_BOILS:g}, where zinc boils")
    # solid and liquid: of the two states that one is there which strives less; near the melting point the two equations
    # are 3 % apart, less than either is good to
    kelvin = temperature + _KELVIN
    return float(_ATMOSPHERE * 10 ** min(6.102 - 6776.0 / kelvin, 5.378 - 6286.0 / kelvin))
