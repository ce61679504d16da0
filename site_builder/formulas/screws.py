"""What a screw pulls with when it is tightened."""

from __future__ import annotations

from math import pi
from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.interval import Interval, spread

DRY = Interval(0.20, 0.25)
"""Nut factor of a dry steel screw: a band, because dry friction scatters (mechconcepts.tech, K table)."""


OILED = Interval(0.14, 0.18)
"""Nut factor of a screw with oiled threads: 0.15 to 0.18 in most tables (common practice)."""
ANTI_SEIZE = Interval(0.10, 0.15)
"""Nut factor with anti-seize paste: 0.12 in most tables; the maker of the paste prints its own (common practice)."""
Threads = Literal["dry", "oiled", "anti-seize"]
_NUT_FACTORS: dict[Threads, Interval] = {"dry": DRY, "oiled": OILED, "anti-seize": ANTI_SEIZE}


def nut_factor(threads: Threads) -> Interval:
    """The band in which the nut factor of a steel screw lies, by what is on its threads.

    The same torque pulls an oiled screw up to half as hard again as a dry one, and may break it. Raises ``Impossible``
    for threads that are none of these. Source: named at each band.
    """
    return _NUT_FACTORS[guards.one_of("state of the threads", threads, _NUT_FACTORS)]


def stress_area(diameter: float, pitch: float) -> float:
    """Square millimetres on which a metric screw is pulled: between its pitch and its root diameter.

    ``diameter`` and ``pitch`` in mm. Raises ``Impossible`` for sizes of nothing or a pitch that leaves no core.
    Source: ISO 898-1, As = pi/4 (d - 0.9382 P) squared.
    """
    core = guards.above_zero("diameter", "mm", diameter) - 0.9382 * guards.above_zero("pitch", "mm", pitch)
    guards.above_zero("core left by the pitch", "mm", core)
    return pi / 4 * core**2


def stress_area_inch(diameter: float, pitch: float) -> float:
    """Square millimetres on which a screw with an inch thread is pulled.

    ``diameter`` and ``pitch`` in mm; the pitch is 25.4 over the threads to the inch. ASME takes the core a little
    thinner than ISO 898-1 does. Raises ``Impossible`` for sizes of nothing or a pitch that leaves no core.
    Source: ASME B1.1, At = 0.7854 (D - 0.9743/n) squared; right for steels up to 690 MPa (100,000 psi).
    """
    core = guards.above_zero("diameter", "mm", diameter) - 0.9743 * guards.above_zero("pitch", "mm", pitch)
    guards.above_zero("core left by the pitch", "mm", core)
    return pi / 4 * core**2


def tightening_torque(preload: float, diameter: float, nut_factor: float = 0.2) -> float:
    """Newton metres that give a screw of ``diameter`` mm a pull of ``preload`` N.

    ``nut_factor`` holds all the friction; 0.2 is the usual figure for dry steel. Raises ``Impossible`` for a pull
    under 0, or a diameter or factor of nothing. Source: T = K d F, Machinery's Handbook, Torque and Tension.
    """
    guards.above_zero("diameter", "mm", diameter)
    guards.above_zero("nut factor", "", nut_factor)
    return nut_factor * diameter / 1000 * guards.not_negative("preload", "N", preload)


def preload(torque: float, diameter: float, nut_factor: float = 0.2) -> float:
    """Newtons with which a screw of ``diameter`` mm pulls when tightened to ``torque`` N m.

    Raises ``Impossible`` for a torque under 0, or a diameter or factor of nothing. Source: as
    ``tightening_torque``, turned round.
    """
    guards.above_zero("diameter", "mm", diameter)
    guards.above_zero("nut factor", "", nut_factor)
    return guards.not_negative("torque", "N m", torque) / (nut_factor * diameter / 1000)


def preload_band(torque: float, diameter: float, nut_factor: Interval = DRY) -> Interval:
    """Least and most pull in N at one torque in N m, when the friction is only known as a band.

    Raises ``Impossible`` as ``preload`` does. Source: as ``tightening_torque``; a torque wrench leaves the pull
    within 25 to 30 % either way (mechconcepts.tech, Bolt torque calculation).
    """
    return spread(preload, torque, diameter, nut_factor)


def preload_for(area: float, proof: float, share: float = 0.75) -> float:
    """Newtons to tighten a screw to: a share of what it bears without stretching for good.

    ``area`` in mm², ``proof`` the proof stress in MPa. 0.75 is the usual share for a joint that is taken apart
    again, 0.9 for one that stays. Raises ``Impossible`` for an area or stress of nothing, or a share outside 0 to
    1. Source: Shigley, Mechanical Engineering Design, bolt preload (from memory).
    """
    guards.above_zero("stress area", "mm²", area)
    guards.above_zero("proof stress", "MPa", proof)
    return guards.share("share of the proof load", share) * area * proof
