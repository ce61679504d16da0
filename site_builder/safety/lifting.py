"""The revised NIOSH lifting equation: what a healthy person may lift so, and how a load stands to it.

It holds for two hands, standing, a smooth lift of something that keeps still, on a floor that grips, in a room
neither hot nor cold. It is not made for one hand, for sitting or kneeling, for carrying, pushing and pulling, for
hot metal in a ladle, for people under age, pregnant or with a hurt back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from typing import Literal

from site_builder.formulas import guards
from site_builder.safety.lifting_tables import (
    COUPLINGS,
    DURATIONS,
    METRIC,
    Coupling,
    Duration,
    LiftUnits,
    coupling_multiplier,
    frequency_multiplier,
    height_multiplier,
    reach_multiplier,
    travel_multiplier,
    twist_multiplier,
)

GOAL = 1.0
"""Lifting index to design work for (NIOSH 94-110, 1.4.3)."""
HIGH = 3.0
"""Lifting index over which nearly all workers are at higher risk of back pain (NIOSH 94-110, p. 20)."""

End = Literal["start", "end"]


@dataclass(frozen=True, slots=True)
class Hands:
    """Where the hands are at one end of a lift: ``reach`` before the ankles, ``height`` over floor, ``twist`` in °."""

    reach: float
    height: float
    twist: float = 0.0


@dataclass(frozen=True, slots=True)
class Lift:
    """One lift: ``load`` from ``start`` to ``end``, so many times ``per_minute``, for a ``duration``.

    ``careful_end`` if the load is not just let go but held and placed: then the end counts like the start.
    Lengths and load in the ``units``. Raises ``Impossible`` for a load under 0, hands where none can be, and words
    that are none.
    """

    load: float
    start: Hands
    end: Hands
    per_minute: float = 0.2
    duration: Duration = "short"
    coupling: Coupling = "fair"
    careful_end: bool = False
    units: LiftUnits = METRIC

    def __post_init__(self) -> None:
        guards.not_negative("load", self.units.mass, self.load)
        for hands in (self.start, self.end):
            guards.above_zero("reach", self.units.length, hands.reach)
            guards.not_negative("height of the hands", self.units.length, hands.height)
            guards.within("twist", "°", hands.twist, 0, 180)
        guards.not_negative("lifts", "per minute", self.per_minute)
        guards.one_of("duration", self.duration, DURATIONS)
        guards.one_of("hold of the hands", self.coupling, COUPLINGS)


@dataclass(frozen=True, slots=True)
class Multipliers:
    """What is left of the load constant for each feature of a lift, each from 0 to 1."""

    reach: float
    height: float
    travel: float
    twist: float
    frequency: float
    coupling: float

    @property
    def without_frequency(self) -> float:
        """All but how often it is done."""
        return self.reach * self.height * self.travel * self.twist * self.coupling

    @property
    def all(self) -> float:
        """All of them together."""
        return self.without_frequency * self.frequency

    @property
    def worst(self) -> str:
        """The feature that takes most away: where to begin to make the lift better. "" where none takes anything."""
        named = {name: getattr(self, name) for name in ("reach", "height", "travel", "twist", "frequency", "coupling")}
        name = min(named, key=lambda one: named[one])
        return name if named[name] < 1 else ""


def multipliers(lift: Lift, at: End = "start") -> Multipliers:
    """The six multipliers of a lift at one of its ends.

    Height, reach, twist and hold are those of that end; how often counts as low if either end is under 75 cm
    (30 in), which is the stricter. Raises ``Impossible`` for a place no hands can be. Source: NIOSH 94-110.
    """
    guards.one_of("end of the lift", at, ("start", "end"))
    hands, units = (lift.start if at == "start" else lift.end), lift.units
    lowest = min(lift.start.height, lift.end.height)
    return Multipliers(
        reach_multiplier(hands.reach, units),
        height_multiplier(hands.height, units),
        travel_multiplier(abs(lift.end.height - lift.start.height), units),
        twist_multiplier(hands.twist),
        frequency_multiplier(lift.per_minute, lift.duration, lowest < units.knuckles),
        coupling_multiplier(lift.coupling, hands.height < units.knuckles),
    )


def recommended_weight(lift: Lift) -> float:
    """Recommended weight limit of the lift, in its unit of mass: at its worse end, if the end is placed with care.

    0 where it should not be lifted so at all. Raises ``Impossible`` for a place no hands can be. Source: RWL = LC
    HM VM DM AM FM CM, NIOSH 94-110; worksheets with two-place multipliers come out up to 3 % away.
    """
    return lift.units.constant * multipliers(lift, worse_end(lift)).all


def worse_end(lift: Lift) -> End:
    """The end of the lift that allows less: the start, unless the load is placed with care at a worse end.

    Raises ``Impossible`` for a place no hands can be. Source: NIOSH 94-110, significant control.
    """
    if lift.careful_end and multipliers(lift, "end").all < multipliers(lift, "start").all:
        return "end"
    return "start"


def lifting_index(lift: Lift) -> float:
    """The load over what is recommended: 1 or less is the aim, over 3 nearly everybody is at higher risk.

    Infinite where it should not be lifted so at all. Raises ``Impossible`` for a place no hands can be.
    Source: LI = L / RWL, NIOSH 94-110.
    """
    return _over(lift.load, recommended_weight(lift))


@dataclass(frozen=True, slots=True)
class TaskIndex:
    """One task of several: its index by itself, its index without counting how often, and its lifts per minute.

    An index is infinite where the task should not be done at all. Raises ``Impossible`` for figures under 0.
    """

    single: float
    without_frequency: float
    per_minute: float

    def __post_init__(self) -> None:
        for index in (self.single, self.without_frequency):
            if index != inf:
                guards.not_negative("lifting index of a task", "", index)
        guards.not_negative("lifts", "per minute", self.per_minute)


def task_index(lift: Lift) -> TaskIndex:
    """The figures with which a lift enters a composite index. Raises ``Impossible`` for a place no hands can be.

    Source: STLI and FILI, NIOSH 94-110, 1.4 and section 2.4.
    """
    at = worse_end(lift)
    unhurried = lift.units.constant * multipliers(lift, at).without_frequency
    return TaskIndex(lifting_index(lift), _over(lift.load, unhurried), lift.per_minute)


def composite_index(tasks: Sequence[TaskIndex], duration: Duration = "short", low: bool = True) -> float:
    """Lifting index of several tasks in turn: the worst one by itself, and what each other adds by being done too.

    ``low`` if any begins under 75 cm (30 in). Infinite where they are too many lifts together, or one should not
    be done at all. Raises ``Impossible`` for no task. Source: CLI, NIOSH 94-110, section 2.4.
    """
    guards.some("tasks of lifting", "", tasks)
    guards.one_of("duration", duration, DURATIONS)
    if any(inf in (task.single, task.without_frequency) for task in tasks):
        return inf
    worst, *others = sorted(tasks, key=lambda task: -task.single)
    index, rate = worst.single, worst.per_minute
    for task in others:
        before = frequency_multiplier(rate, duration, low)
        rate += task.per_minute
        after = frequency_multiplier(rate, duration, low)
        if 0 in (before, after):
            return inf
        index += task.without_frequency * (1 / after - 1 / before)
    return index


def _over(load: float, allowed: float) -> float:
    if load == 0:
        return 0.0
    return load / allowed if allowed else inf
