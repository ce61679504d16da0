"""Hand-arm vibration, against published values."""

from __future__ import annotations

from site_builder.safety.verdict import VIBRATION, Verdict, reaching, verdict, worst_first
from site_builder.safety.vibration import (
    ACTION,
    LIMIT,
    Grip,
    daily_exposure,
    hours_left,
    hours_until,
    points,
    points_of,
    total_from_one_axis,
    total_of_axes,
)
from tests.outside.registry import Topic, reference

TOPIC = Topic("vibration", "Hand-arm vibration")

TIMES = tuple(each for each in reference("vibration") if each.startswith("time-to"))


def grips(tools: list[list[float]]) -> list[Grip]:
    return [Grip(vibration, hours) for vibration, hours in tools]


@TOPIC.check(points_of, "eav-points", "elv-points")
def points_at(A8: float) -> float:  # noqa: N803
    return points_of(A8)


@TOPIC.check(points, "hse-5-3h")
def points_of_one(a_m_s2: float, hours: float) -> float:
    return points([Grip(a_m_s2, hours)])


@TOPIC.check(points, "eu-points")
def points_of_three(tools: list[list[float]]) -> float:
    return points(grips(tools))


@TOPIC.check(daily_exposure, "drill-13-2h", "sander-4-6h", "eu-grinder", "eu-cutter", "eu-hammer")
def exposure(a_m_s2: float, hours: float) -> float:
    return daily_exposure([Grip(a_m_s2, hours)])


@TOPIC.check(daily_exposure, "eu-total")
def exposure_of_three(tools: list[list[float]]) -> float:
    return daily_exposure(grips(tools))


@TOPIC.check(hours_until, *TIMES)
def minutes_until(a_m_s2: float) -> list[float]:
    """To the action value, and to the limit where the table gives it too."""
    values = (ACTION,) if a_m_s2 < LIMIT else (ACTION, LIMIT)
    return [hours_until(a_m_s2, value) * 60 for value in values]


@TOPIC.check(hours_left, "left-after-75", "left-after-150")
def minutes_left(tools: list[list[float]], vibration: float, a8: float) -> float:
    return hours_left(grips(tools), vibration, a8) * 60


@TOPIC.check(total_of_axes, "axis-one", "axis-all")
def over_one_axis(x: float, y: float, z: float) -> float:
    return total_of_axes(x, y, z) / x


@TOPIC.check(total_from_one_axis, "factor-least", "factor-most")
def from_one(value: float, factor: float) -> float:
    return total_from_one_axis(value, factor)


@TOPIC.check(verdict, "eav", "elv")
def mark(name: str) -> float:
    return next(each.value for each in VIBRATION.marks if each.name == name)


@TOPIC.check(verdict, "hse-5-3h-verdict", "drill-verdict", "sander-verdict")
def reached(tools: list[list[float]]) -> str:
    found = verdict(VIBRATION, daily_exposure(grips(tools))).reached
    return found.name if found else ""


def verdicts(tools: dict[str, list[float]]) -> dict[str, Verdict]:
    return {name: verdict(VIBRATION, daily_exposure([Grip(*told)])) for name, told in tools.items()}


def names(found: tuple[Verdict, ...], of: dict[str, Verdict]) -> list[str]:
    return [name for one in found for name, each in of.items() if each is one]


@TOPIC.check(worst_first, "eu-order", "nova-order")
def order(tools: dict[str, list[float]]) -> list[str]:
    of = verdicts(tools)
    return names(worst_first(of.values()), of)


@TOPIC.check(reaching, "eu-reaching", "nova-reaching")
def those_that_reach(tools: dict[str, list[float]]) -> list[str]:
    of = verdicts(tools)
    return names(reaching(list(of.values())), of)
