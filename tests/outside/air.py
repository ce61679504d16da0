"""Measured air against its limits, against published values."""

from __future__ import annotations

from site_builder.safety.air import Breathed, mixture_share, shift_average
from tests.outside.registry import Topic

TOPIC = Topic("air", "Measured air")


@TOPIC.check(shift_average, "substance-a", "toluene")
def average(spells: list[list[float]]) -> float:
    return shift_average([Breathed(concentration, hours) for concentration, hours in spells])


@TOPIC.check(mixture_share, "mixture-bcd", "mixture-two")
def mixture(averages: list[list[float]]) -> float:
    return mixture_share([(average, limit) for average, limit in averages])
