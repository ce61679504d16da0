"""Plating, against a supplier's table of theoretical deposits, worked examples, standards and the law."""

from __future__ import annotations

from site_builder.formulas.deposition import (
    charge_equivalent,
    mass_deposited,
    metal_on,
    plating_time,
    thickness_deposited,
    thickness_from_gain,
)
from site_builder.formulas.plating_classes import plating_class
from site_builder.formulas.plating_metals import plating_metal
from tests.outside.registry import Topic
from tests.outside.units import FOOT, GRAM, HOUR, MICRON, MIL, MINUTE, OUNCE, SQUARE_DECIMETRE

TOPIC = Topic("plating", "Plating")

WEIGHED = ("zn", "au3", "au1", "ag", "cr3", "fe", "cu2", "pb", "ni", "pd4", "pd2", "rh4",
           "rh3", "cd", "pt4", "pt2")
MEASURED = ("au3", "au1", "ag", "cr6", "co", "sn4", "sn2", "fe", "cu1", "pb", "ni", "pd2", "rh4", "rh2")


@TOPIC.check(charge_equivalent, *(f"{metal}-gAh" for metal in WEIGHED))
def grams_an_ampere_hour(metal: str, valence: int) -> float:
    return charge_equivalent(plating_metal(metal, valence)) * HOUR / GRAM


@TOPIC.check(thickness_deposited, *(f"{metal}-um" for metal in MEASURED))
def micrometres_a_minute(metal: str, valence: int) -> float:
    return thickness_deposited(1 / SQUARE_DECIMETRE, MINUTE, plating_metal(metal, valence)) / MICRON


@TOPIC.check(mass_deposited, "ni-2A-30min-mass")
def grams_of_nickel(amps: float, minutes: float, metal: str, efficiency: float) -> float:
    return mass_deposited(amps, minutes * MINUTE, plating_metal(metal), efficiency) / GRAM


@TOPIC.check(mass_deposited, "cu-25A")
def grams_of_copper(amps: float, seconds: float, metal: str, valence: int) -> float:
    return mass_deposited(amps, seconds, plating_metal(metal, valence)) / GRAM


@TOPIC.check(plating_time, "time-ni", "time-au1", "time-au3")
def minutes(um: float, a_dm2: float, metal: str, valence: int) -> float:
    return plating_time(um * MICRON, a_dm2 / SQUARE_DECIMETRE, plating_metal(metal, valence)) / MINUTE


@TOPIC.check(plating_metal, "data-cu", "data-ag", "data-ni", "data-au", "data-zn")
def data(metal: str, valence: int) -> list[float]:
    found = plating_metal(metal, valence)
    return [found.molar_mass / GRAM, found.valence, found.density / 1000]


@TOPIC.check(metal_on, "oz-copper", "oz-zinc")
def ounces(um: float, ft2: float, g_cm3: float) -> float:
    return metal_on(ft2 * FOOT**2, um * MICRON, g_cm3 * 1000) / OUNCE


@TOPIC.check(thickness_from_gain, "gain-zinc", "gain-copper")
def mils(oz: float, ft2: float, g_cm3: float) -> float:
    return thickness_from_gain(oz * OUNCE, ft2 * FOOT**2, g_cm3 * 1000) / MIL


@TOPIC.check(
    plating_class,
    *("ftc-electroplate", "ftc-heavy-uin", "vermeil-um", "fr-gold", "fr-vermeil", "jis-1", "jis-3", "jis-6"),
)
def least_micrometres(standard: str, grade: str) -> float:
    return plating_class(standard, grade).least / MICRON
