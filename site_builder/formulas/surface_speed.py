"""How fast the rim of a wheel, a belt or a turning blank runs past the work.

Speeds of turning are in revolutions a second: a spindle of 2850 rev/min turns 47.5 times a second.
"""

from __future__ import annotations

from math import pi

from site_builder.formulas import guards


def surface_speed(diameter: float, turns: float) -> float:
    """m/s at the rim of a wheel of ``diameter`` m that turns ``turns`` times a second.

    For a wheel that has worn, its diameter now gives the speed now. Raises ``Impossible`` for no diameter or no
    turning. Source: definition, π d n; wheel makers' tables.
    """
    return pi * guards.above_zero("diameter", "m", diameter) * guards.above_zero("turning speed", "rev/s", turns)


def turns_for(speed: float, diameter: float) -> float:
    """Revolutions a second at which a wheel of ``diameter`` m has the surface speed ``speed`` (m/s).

    Raises ``Impossible`` for no speed or no diameter. Source: as ``surface_speed``.
    """
    return guards.above_zero("surface speed", "m/s", speed) / (pi * guards.above_zero("diameter", "m", diameter))


def diameter_for(speed: float, turns: float) -> float:
    """Diameter (m) of a wheel that has the surface speed ``speed`` (m/s) at ``turns`` revolutions a second.

    With the least useful speed it is the size to which a wheel may wear. Raises ``Impossible`` for no speed or no
    turning. Source: as ``surface_speed``.
    """
    return guards.above_zero("surface speed", "m/s", speed) / (pi * guards.above_zero("turning speed", "rev/s", turns))


def belt_speed(drive_wheel: float, turns: float, slip: float = 0.0) -> float:
    """m/s of a belt on a drive wheel of ``drive_wheel`` m; ``slip`` is the share the belt lags behind.

    Raises ``Impossible`` for no wheel, no turning, or a belt that slips all of it. Source: as ``surface_speed``.
    """
    return surface_speed(drive_wheel, turns) * (1 - guards.lost_share("slip", slip))


def over_rating(running: float, rated: float) -> float:
    """Share by which a speed is over what is marked as the most; less than 0 while there is room.

    Both in the same unit, turns or surface speed. Anything over 0 must not be run. Raises ``Impossible`` for a
    rating of nothing. Source: 29 CFR 1910.215(d)(1), spindle speed not over the speed marked on the wheel.
    """
    guards.not_negative("running speed", "as the rated speed", running)
    return running / guards.above_zero("rated speed", "as the running speed", rated) - 1
