"""Mixes that go off: how long one lasts in a warm room, how many pieces it covers, how many are stirred."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

HALVING = 10.0
"""Kelvin that halve the pot life of two-pack resins: a rule of thumb; a table of the maker's comes first."""


@dataclass(frozen=True, slots=True)
class Mixes:
    """Pieces each mix covers, mixes for the batch, what to weigh for a full mix and for the last (kg or m³)."""

    pieces: int
    mixes: int
    full: float
    last: float


def pot_life_at(pot_life: float, told_at: float, room: float, halving: float = HALVING) -> float:
    """Seconds of pot life in a room of ``room`` °C, where it is ``pot_life`` at ``told_at`` °C.

    A large lump heats itself and goes off sooner. Raises ``Impossible`` for no pot life, temperatures under
    absolute zero, or halving in nothing. Source: resin makers, half for each 10 °C (18 °F) warmer; between 1.5 and
    2.5 times faster as the hardener goes.
    """
    guards.above_zero("pot life", "s", pot_life)
    warmer = guards.temperature("room", room) - guards.temperature("told at", told_at)
    return float(pot_life * 2 ** (-warmer / guards.within("halving", "K", halving, 1, 100)))


def mixes_for(
    pieces: int, amount: float, time_each: float, pot_life: float, left: float = 0.0, most: float | None = None
) -> Mixes:
    """Mixes for a batch, each no larger than is used up before it goes off.

    ``amount`` is what a piece takes, ``left`` what stays in the pot each time, ``most`` the largest mix that may
    be stirred, all in one unit; ``time_each`` and ``pot_life`` in seconds. Raises ``Impossible`` where not even one
    piece is done before the mix goes off. Source: common practice.
    """
    guards.whole("pieces", pieces, 1)
    guards.above_zero("amount", "a piece", amount)
    guards.above_zero("time for a piece", "s", time_each)
    guards.not_negative("left in the pot", "as the amount", left)
    fits = floor(guards.above_zero("pot life", "s", pot_life) / time_each + 1e-9)
    if fits < 1:
        raise Impossible("pot life", "s", pot_life, f"must be at least what one piece takes, {float(time_each):g}")
    if most is not None:
        fits = min(fits, floor((guards.above_zero("largest mix", "as the amount", most) - left) / amount + 1e-9))
        if fits < 1:
            raise Impossible("largest mix", "as the amount", most, "must be enough for one piece and what is left")
    each = min(fits, pieces)
    mixes = -(-pieces // each)
    return Mixes(each, mixes, each * amount + left, (pieces - (mixes - 1) * each) * amount + left)


def parts_of(total: float, parts: Sequence[float]) -> tuple[float, ...]:
    """How much of each thing is in ``total`` of a mix of so many parts each, in the unit of the total.

    Raises ``Impossible`` for no parts, parts under 0, or all 0. Source: definition of parts.
    """
    guards.not_negative("total", "", total)
    guards.some("parts", "", parts)
    together = guards.above_zero("all parts", "", sum(guards.not_negative("part", "", part) for part in parts))
    return tuple(total * part / together for part in parts)
