"""Wall left by shear spinning, where the blank is not drawn in and the metal is sheared along the axis.

Spinning by hand in many strokes draws the blank in and keeps the wall roughly as thick as the sheet: then none
of this holds.
"""

from __future__ import annotations

from math import asin, degrees, radians, sin

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible


def sheared_wall(sheet: float, half_angle: float) -> float:
    """Wall (m) of a cone sheared from sheet of thickness ``sheet`` (m); ``half_angle`` between wall and axis (°).

    Raises ``Impossible`` for sheet of nothing or an angle outside 0 to 90°.
    Source: the sine law, ASM Handbook vol. 14B, spinning.
    """
    return guards.above_zero("sheet", "m", sheet) * sin(radians(_angle(half_angle)))


def sheet_for(wall: float, half_angle: float) -> float:
    """Sheet (m) to start from so that shearing a cone of that half angle (°) leaves ``wall`` (m).

    Raises ``Impossible`` for a wall of nothing or an angle outside 0 to 90°. Source: as ``sheared_wall``.
    """
    return guards.above_zero("wall", "m", wall) / sin(radians(_angle(half_angle)))


def steepest(sheet: float, least_wall: float) -> float:
    """Least half angle (°) at which the wall of a sheared cone is still ``least_wall`` (m).

    Raises ``Impossible`` for a wall of nothing or one thicker than the sheet. Source: as ``sheared_wall``.
    """
    guards.above_zero("least wall", "m", least_wall)
    return degrees(asin(least_wall / guards.at_least("sheet", "m", sheet, least_wall, "least wall")))


def _angle(half_angle: float) -> float:
    if not 0 < guards.finite("half angle", "°", half_angle) <= 90:
        raise Impossible("half angle", "°", half_angle, "must be more than 0 and at most 90")
    return half_angle
