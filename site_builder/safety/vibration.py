"""Hand-arm vibration of a day: A(8), points, and the time that is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, hypot, inf, sqrt

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

SHIFT = 8.0
ACTION = 2.5
"""m/s² A(8) from which the employer must act: Directive 2002/44/EC, Article 3."""
LIMIT = 5.0
"""m/s² A(8) that must not be exceeded: Directive 2002/44/EC, Article 3."""
POINTS_AT_ACTION = 100.0


@dataclass(frozen=True, slots=True)
class Grip:
    """So many ``hours`` with the hands on something that shakes them with ``vibration`` m/s² (total of three axes).

    Trigger time, not the time of the job. Raises ``Impossible`` for a vibration or time that is none.
    """

    vibration: float
    hours: float

    def __post_init__(self) -> None:
        guards.not_negative("vibration", "m/s²", self.vibration)
        if guards.not_negative("time at the tool", "h", self.hours) > 24:
            raise Impossible("time at the tool", "h", self.hours, "must fit into a day")


def total_of_axes(x: float, y: float, z: float) -> float:
    """Vibration total value in m/s² from the weighted values of three axes.

    Raises ``Impossible`` for values under 0. Source: ISO 5349-1:2001, root of the sum of squares.
    """
    return hypot(*(guards.not_negative("vibration", "m/s²", axis) for axis in (x, y, z)))


def total_from_one_axis(value: float, factor: float = 1.7) -> float:
    """Vibration total value in m/s² to reckon with when only the strongest axis is known.

    The factor lies between 1.0, one axis alone, and 1.7, all alike; the highest is the careful one. Raises
    ``Impossible`` for a value under 0 or a factor outside. Source: ISO 5349-1:2001, 4.5.
    """
    if not 1.0 <= guards.finite("factor", "", factor) <= 1.7:
        raise Impossible("factor", "", factor, "must lie between 1.0 and 1.7")
    return factor * guards.not_negative("vibration", "m/s²", value)


def daily_exposure(grips: Sequence[Grip]) -> float:
    """A(8) in m/s²: the vibration of all grips of the day, as if spread evenly over eight hours. None give 0.

    Raises ``Impossible`` where they are longer than a day. Source: ISO 5349-1:2001; A(8) = sqrt(sum a² T / 8).
    """
    _one_day(grips)
    return sqrt(fsum(grip.vibration**2 * grip.hours for grip in grips) / SHIFT)


def points(grips: Sequence[Grip]) -> float:
    """Exposure points of the day: 100 at the action value, 400 at the limit; points of several grips just add up.

    Raises ``Impossible`` where they are longer than a day. Source: HSE exposure points, 2 a² T.
    """
    _one_day(grips)
    return fsum(2 * grip.vibration**2 * grip.hours for grip in grips)


def points_of(a8: float) -> float:
    """Points of a daily exposure A(8) in m/s². Raises ``Impossible`` for an exposure under 0.

    Source: HSE exposure points, 100 (A(8) / 2.5)².
    """
    return POINTS_AT_ACTION * (guards.not_negative("daily exposure", "m/s² A(8)", a8) / ACTION) ** 2


def hours_until(vibration: float, a8: float = ACTION) -> float:
    """Hours with a vibration in m/s² until the day's exposure is ``a8``; infinite where nothing shakes.

    May be longer than a day: then it is not reached. Raises ``Impossible`` for a vibration under 0 or an exposure
    of nothing. Source: 8 (A(8) / a)², HSE L140.
    """
    guards.above_zero("daily exposure", "m/s² A(8)", a8)
    return SHIFT * (a8 / vibration) ** 2 if guards.not_negative("vibration", "m/s²", vibration) else inf


def hours_left(grips: Sequence[Grip], vibration: float, a8: float = ACTION) -> float:
    """Hours with a vibration in m/s² that still fit into a day with these grips until its exposure is ``a8``.

    0 if it is reached already; not more than what is left of the 24 hours. Raises ``Impossible`` as
    ``hours_until``. Source: as ``points``: what is left of them, over what an hour costs.
    """
    used = daily_exposure(grips) / guards.above_zero("daily exposure", "m/s² A(8)", a8)
    day = 24.0 - fsum(grip.hours for grip in grips)
    return max(min(hours_until(vibration, a8) * (1 - used**2), day), 0.0) if used < 1 else 0.0


def _one_day(grips: Sequence[Grip]) -> None:
    hours = fsum(grip.hours for grip in grips)
    if hours > 24 + 1e-9:
        raise Impossible("time at the tools", "h", hours, "must fit into a day")
