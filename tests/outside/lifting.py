"""The revised NIOSH lifting equation, against its manual."""

from __future__ import annotations

from dataclasses import astuple
from typing import Any

from site_builder.safety.lifting import (
    End,
    Hands,
    Lift,
    TaskIndex,
    composite_index,
    lifting_index,
    multipliers,
    recommended_weight,
    task_index,
    worse_end,
)
from site_builder.safety.lifting_tables import (
    METRIC,
    US,
    Coupling,
    coupling_multiplier,
    duration_of,
    frequency_multiplier,
    height_multiplier,
    reach_multiplier,
    spread_rate,
    travel_multiplier,
    twist_multiplier,
)
from site_builder.safety.verdict import LIFTING, verdict
from tests.outside.registry import Topic, reference

TOPIC = Topic("lifting", "Lifting")

_IDS = tuple(reference("lifting"))


def named(start: str, end: str = "") -> tuple[str, ...]:
    return tuple(each for each in _IDS if each.startswith(start) and each.endswith(end))


@TOPIC.check(recommended_weight, "lc-lb")
def best_of_all() -> float:
    """The load constant is what may be lifted where nothing takes anything away."""
    return recommended_weight(Lift(1, Hands(10, 30), Hands(10, 30), coupling="good", units=US))


@TOPIC.check(reach_multiplier, *named("hm-"))
def reach(H_in: float) -> float:  # noqa: N803
    return reach_multiplier(H_in, US)


@TOPIC.check(height_multiplier, *named("vm-"))
def height(V_in: float) -> float:  # noqa: N803
    return height_multiplier(V_in, US)


@TOPIC.check(travel_multiplier, *named("dm-"))
def travel(D_cm: float) -> float:  # noqa: N803
    return travel_multiplier(D_cm, METRIC)


@TOPIC.check(twist_multiplier, *named("am-"))
def twist(A_deg: float) -> float:  # noqa: N803
    return twist_multiplier(A_deg)


@TOPIC.check(frequency_multiplier, *named("fm-"))
def frequency(lifts_per_min: float) -> list[float]:
    return [
        frequency_multiplier(lifts_per_min, duration, low)
        for duration in ("short", "moderate", "long")
        for low in (True, False)
    ]


@TOPIC.check(coupling_multiplier, *named("cm-"))
def hold(coupling: Coupling) -> list[float]:
    return [coupling_multiplier(coupling, low) for low in (True, False)]


@TOPIC.check(duration_of, *named("rest-"))
def duration(work: float, rest: float) -> str:
    return duration_of(work, rest)


@TOPIC.check(spread_rate, *named("freq-adjust"))
def rate(lift_rate_per_min: float, work_min: float, window_min: float) -> float:
    return spread_rate(lift_rate_per_min, work_min, window_min)


def lift(start: list[float], end: list[float], **told: Any) -> Lift:
    """The lift of an example, in the units it is told in."""
    units = US if "load_lb" in told else METRIC
    load = told.pop("load_lb", None) or told.pop("load_kg", None)
    return Lift(load, Hands(*start), Hands(*end), units=units, **told)


def only_at(at: End, told: dict[str, Any]) -> Lift:
    """The lift as if it were judged at that end alone: from there to the other."""
    if at == "end":
        told["start"], told["end"] = told["end"], told["start"]
    return lift(**told)


@TOPIC.check(recommended_weight, "hw-rwl", *named("ex", "-rwl"))
def weight(at: End = "start", **told: Any) -> float:
    return recommended_weight(only_at(at, told))


@TOPIC.check(lifting_index, "hw-li", *named("ex", "-li"))
def index(at: End = "start", **told: Any) -> float:
    return lifting_index(only_at(at, told))


@TOPIC.check(worse_end, *named("ex", "-worse"))
def worse(**told: Any) -> str:
    return worse_end(lift(**told))


@TOPIC.check(multipliers, "hw-multipliers")
def six_at_the_start(**told: Any) -> list[float]:
    return list(astuple(multipliers(lift(**told), "start")))


@TOPIC.check(multipliers, "ex4-multipliers")
def six_at_the_end(**told: Any) -> list[float]:
    return list(astuple(multipliers(lift(**told), "end")))


@TOPIC.check(task_index, "task-hw", "task-ex4")
def two_figures(**told: Any) -> list[float]:
    task = task_index(lift(**told))
    return [task.single, task.without_frequency]


@TOPIC.check(composite_index, "cli-3task", "cli-2task")
def composite(tasks: list[list[float]]) -> float:
    return composite_index([TaskIndex(*task) for task in tasks])


@TOPIC.check(verdict, "li-goal", "li-high")
def reached(index: float) -> str:
    found = verdict(LIFTING, index).reached
    return found.name if found else ""
