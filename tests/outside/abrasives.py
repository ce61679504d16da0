"""Abrasive grades, against tables of two publishers, the standards as remembered, and makers' advice."""

from __future__ import annotations

from itertools import chain

from site_builder.formulas.grits import coarse_steps, grain_size, grit, nearest_grit
from site_builder.formulas.interval import Interval
from tests.outside.registry import Topic
from tests.outside.units import MICRON

TOPIC = Topic("abrasives", "Abrasive grades")
P = (12, 20, 36, 40, 50, 80, 100, 120, 150, 180, 220, 240, 280, 320, 400, 500, 600, 800, 1200, 1500, 2000, 2500)
F = (60, 100, 220, 230, 320, 400, 600, 1000)
CAMI = (16, 24, 36, 40, 60, 100, 150, 320, 600, 1000)
CAMI_OTHER = (20, 24, 36, 40, 60, 100)


@TOPIC.check(grain_size, *(f"P{n}" for n in P), *(f"F{n}" for n in F))
def micrometres(grade: str) -> float:
    return grain_size(grade).middle / MICRON


@TOPIC.check(grain_size, *(f"CAMI{n}" for n in CAMI), *(f"CAMI{n}-alt" for n in CAMI_OTHER))
def micrometres_between(grade: str) -> Interval:
    size = grain_size(grade)
    return Interval(size.low / MICRON, size.high / MICRON)


@TOPIC.check(nearest_grit, *(f"eq-{n}" for n in (180, 220, 240, 320, 400, 500, 600)), "p800-is-400")
def nearest_p(cami: int) -> str:
    return str(nearest_grit(grain_size(f"CAMI {cami}").middle, "P"))


@TOPIC.check(grit, "name-p80", "name-400")
def named(text: str) -> str:
    return str(grit(text))


@TOPIC.check(
    coarse_steps,
    *("steps-80-120-180", "steps-80-120-180-220", "steps-80-180"),
    *("steps-80-180-empire", "steps-jky"),
)
def missing(sequence: list[str]) -> list[str]:
    return [str(each) for each in chain.from_iterable(step.between for step in coarse_steps(sequence))]
