"""Casts in a working day, from the cycle of a mould."""

from __future__ import annotations

from math import floor

from site_builder.formulas import guards

COMMON_DAY = 50
"""Castings a day from one permanent mould by hand: common practice, no source."""
_ROUNDING = 1e-9


def casts_in(working: float, cycle: float, setup: float = 0.0, at_once: int = 1) -> int:
    """Castings in ``working`` seconds, when each cycle takes ``cycle`` seconds and gives ``at_once`` castings.

    ``setup`` is the time before the first pour: melting, coating, warming the mould. A cycle that is not finished
    counts nothing. Raises ``Impossible`` for a cycle of no time, or less than one casting at once.
    Source: batch time, Groover, Automation, Production Systems and Computer-Integrated Manufacturing, chapter 3.
    """
    guards.not_negative("working time", "s", working)
    guards.not_negative("setup", "s", setup)
    cycles = max(working - setup, 0) / guards.above_zero("cycle", "s", cycle)
    return floor(cycles + _ROUNDING) * guards.whole("castings at once", at_once, 1)


def cycle_for(castings: int, working: float, setup: float = 0.0, at_once: int = 1) -> float:
    """Seconds each cycle may take so that so many castings come out of ``working`` seconds.

    Raises ``Impossible`` for no castings, or a day that the setup fills. Source: as ``casts_in``.
    """
    guards.whole("castings", castings, 1)
    guards.whole("castings at once", at_once, 1)
    guards.not_negative("setup", "s", setup)
    guards.not_negative("working time", "s", working)
    guards.above_zero("working time left after the setup", "s", working - setup)
    return (working - setup) / -(-castings // at_once)
