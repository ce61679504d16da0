"""The profile of a turned or spun shell: half its section, as straight and circular pieces.

A point is (radius from the axis, height along it), in metres; a profile runs from the middle to the rim.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

Point = tuple[float, float]
_FAR = 1000.0
"""Metres; nothing that is turned is so large."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece to a point."""

    to: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle to a point, through a point on the way."""

    through: Point
    to: Point


Piece = Line | Arc


@dataclass(frozen=True, slots=True)
class Circle:
    """The circle of an arc: centre, radius, the angle it starts at and the angle it sweeps, signed (radians)."""

    centre: Point
    radius: float
    start: float
    sweep: float

    def at(self, angle: float) -> Point:
        """The point at an angle."""
        guards.finite("angle", "rad", angle)
        return self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle)


def circle_through(start: Point, through: Point, to: Point) -> Circle:
    """The circle of an arc given by three points.

    Raises ``Impossible`` for points on one straight line. Source: Euclid, Elements IV.5.
    """
    (ax, ay), (bx, by), (cx, cy) = (_point(one) for one in (start, through, to))
    bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
    twice = 2 * (bx * cy - by * cx)
    if abs(twice) <= 1e-12 * (hypot(bx, by) * hypot(cx, cy)):
        raise Impossible("arc", "m", f"{start}, {through}, {to}", "must not lie on one straight line")
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    ux, uy = (cy * b2 - by * c2) / twice, (bx * c2 - cx * b2) / twice
    begin = atan2(-uy, -ux)
    way = (atan2(cy - uy, cx - ux) - begin) % (2 * pi)
    # three points that turn left run against the clock
    return Circle((ax + ux, ay + uy), hypot(ux, uy), begin, way if twice > 0 else way - 2 * pi)


def surface_area(start: Point, pieces: Sequence[Piece]) -> float:
    """m² of the shell that the profile sweeps when it turns about the axis once. Exact for lines and arcs.

    Raises ``Impossible`` for no pieces, a radius under 0, or an arc that runs across the axis.
    Source: Pappus and Guldin, area = length × way of its centroid; integrated for the arc.
    """
    guards.some("profile", "m", pieces)
    guards.not_negative("radius of the profile", "m", _point(start)[0])
    area, here = 0.0, start
    for piece in pieces:
        guards.not_negative("radius of the profile", "m", _point(piece.to)[0])
        if isinstance(piece, Line):
            area += pi * (here[0] + piece.to[0]) * hypot(piece.to[0] - here[0], piece.to[1] - here[1])
        else:
            area += _arc_area(circle_through(here, piece.through, piece.to))
        here = piece.to
    return area


def _point(point: Point) -> Point:
    for place in point:
        guards.within("point of the profile", "m", place, -_FAR, _FAR)
    return point


def _arc_area(circle: Circle) -> float:
    end = circle.start + circle.sweep
    low, high = min(circle.start, end), max(circle.start, end)
    # the arc comes nearest to the axis at its ends, or where it turns at 180 degrees
    turns = [angle for angle in (-3 * pi, -pi, pi, 3 * pi) if low < angle < high]
    if turns and circle.centre[0] - circle.radius < -1e-9 * circle.radius:
        raise Impossible("arc", "m", circle.centre[0] - circle.radius, "must stay at a radius of 0 or more")
    along = circle.centre[0] * circle.sweep + circle.radius * (sin(end) - sin(circle.start))
    return abs(2 * pi * circle.radius * along)
