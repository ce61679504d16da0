"""Heat to bring cold metal to the ladle, and how long a furnace takes over it."""

from __future__ import annotations

from site_builder.formulas import guards


def heat_to_melt(
    mass: float,
    *,
    cold: float,
    melts: float,
    pours: float,
    solid_heat: float,
    latent_heat: float,
    liquid_heat: float | None = None,
) -> float:
    """Joules to heat ``mass`` kg from ``cold`` to melting, melt it, and heat it to ``pours`` (all °C).

    ``solid_heat`` and ``liquid_heat`` are specific heats (J/(kg K)), the solid's standing for both where the
    liquid's is not told; ``latent_heat`` is that of melting (J/kg). For an alloy take the liquidus as ``melts``.
    What the furnace itself swallows is not in it. Raises ``Impossible`` for figures that are none.

    Source: Groover, Fundamentals of Modern Manufacturing, heating the metal (chapter 10).
    """
    guards.above_zero("mass", "kg", mass)
    guards.above_zero("specific heat of the solid", "J/(kg K)", solid_heat)
    guards.not_negative("latent heat", "J/kg", latent_heat)
    hot = solid_heat if liquid_heat is None else liquid_heat
    guards.above_zero("specific heat of the liquid", "J/(kg K)", hot)
    guards.temperature("cold temperature", cold)
    guards.at_least("melting temperature", "°C", melts, cold, "cold temperature")
    guards.at_least("pouring temperature", "°C", pours, melts, "melting temperature")
    return mass * (solid_heat * (melts - cold) + latent_heat + hot * (pours - melts))


def melting_time(heat: float, power: float, efficiency: float = 1.0) -> float:
    """Seconds a furnace of so many watts takes for so many joules in the metal.

    ``efficiency`` is the share of its power that reaches the metal. Raises ``Impossible`` for a furnace without
    power or a share outside 0 to 1. Source: definition of power.
    """
    guards.not_negative("heat", "J", heat)
    return heat / (guards.above_zero("power", "W", power) * guards.kept_share("efficiency", efficiency))
