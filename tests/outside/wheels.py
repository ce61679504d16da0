"""Wheels, belts and lathes, against suppliers' charts and worked examples."""

from __future__ import annotations

from site_builder.formulas.speed_bands import Wheel, speed_band
from site_builder.formulas.surface_speed import belt_speed, diameter_for, over_rating, surface_speed, turns_for
from tests.outside.registry import Topic
from tests.outside.units import FEET_A_MINUTE, INCH, MILLIMETRE, MINUTE

TOPIC = Topic("wheels", "Wheels, belts, lathes")


@TOPIC.check(
    surface_speed,
    *("schaffner-4in-800", "quarter-rule", "sfpm-4-3450", "sfpm-6-1750", "sfpm-8-1750", "sfpm-8-3450"),
    *("sfpm-10-1750", "sfpm-10-3450", "sfpm-16-1100", "chart-10-1500", "chart-24-1600", "chart-12-900"),
)
def feet_a_minute(d_in: float, rpm: float) -> float:
    return surface_speed(d_in * INCH, rpm / MINUTE) / FEET_A_MINUTE


@TOPIC.check(surface_speed, "spin-200-600")
def metres_a_minute(d_mm: float, rpm: float) -> float:
    return surface_speed(d_mm * MILLIMETRE, rpm / MINUTE) * MINUTE


@TOPIC.check(turns_for, "rpm-brass-200-2in", "rpm-100-1in")
def rpm(sfm: float, d_in: float) -> float:
    return turns_for(sfm * FEET_A_MINUTE, d_in * INCH) * MINUTE


@TOPIC.check(diameter_for, "schaffner-size", "size-3770")
def inches(sfpm: float, rpm: float) -> float:
    return diameter_for(sfpm * FEET_A_MINUTE, rpm / MINUTE) / INCH


@TOPIC.check(belt_speed, "belt", "belt-chart")
def belt_feet_a_minute(d_in: float, rpm: float) -> float:
    return belt_speed(d_in * INCH, rpm / MINUTE) / FEET_A_MINUTE


@TOPIC.check(over_rating, "rated-3600", "rated-3450")
def may_run(running: float, rated: float) -> bool:
    return over_rating(running, rated) <= 0


@TOPIC.check(speed_band, "band-brass-belt", "band-stainless-belt", "band-aluminium-belt")
def band_in_feet(wheel: Wheel, work: str) -> list[float]:
    speeds = speed_band(wheel, work).speeds
    return [speeds.low / FEET_A_MINUTE, speeds.high / FEET_A_MINUTE]


@TOPIC.check(speed_band, "band-zinc-belt")
def slow_end(wheel: Wheel, work: str) -> float:
    return speed_band(wheel, work).speeds.low * MINUTE


@TOPIC.check(speed_band, "band-polish-7500", "band-polish-6000", "band-buff-7500", "band-buff-17000")
def in_the_band(wheel: Wheel, work: str, sfpm: float) -> bool:
    return sfpm * FEET_A_MINUTE in speed_band(wheel, work).speeds
