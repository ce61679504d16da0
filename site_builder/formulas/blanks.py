"""Blank diameters by equal area: the disc has as much surface as the shell that is made from it.

Holds where the wall stays as thick as the sheet, as in drawing and in spinning by hand; for shear spinning see
``spinning_wall``. Sizes are those of the middle of the sheet. ``trim`` is what is left standing at the rim to be
cut off, in metres of wall: reckoned as a straight band at the rim, or as so much more flange.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, pi, sqrt

from site_builder.formulas import guards
from site_builder.formulas.profile import Piece, Point, surface_area


def blank_of_area(area: float) -> float:
    """Diameter (m) of the disc of so many m². Raises ``Impossible`` for no area.

    Source: Hodgson, Machines and tools employed in the working of sheet metals: 1.128 times the root of the area.
    """
    return sqrt(4 / pi * guards.above_zero("area", "m²", area))


def blank_of_cup(diameter: float, height: float, flange: float | None = None, trim: float = 0.0) -> float:
    """Blank (m) of a cylinder with a flat bottom and a sharp corner, with a flat flange to diameter ``flange``.

    Raises ``Impossible`` for sizes of nothing or a flange smaller than the cup.
    Source: Machinery's Handbook, diameters of shell blanks: √(d² + 4dh), √(d₂² + 4d₁h).
    """
    guards.above_zero("diameter", "m", diameter)
    guards.not_negative("height", "m", height)
    return sqrt(_rim(diameter, flange, trim) + 4 * diameter * height)


def blank_of_cone(
    mouth: float, height: float, bottom: float = 0.0, flange: float | None = None, trim: float = 0.0
) -> float:
    """Blank (m) of a cone of diameter ``mouth`` and ``height``, cut off by a flat bottom of diameter ``bottom``.

    Raises ``Impossible`` for sizes of nothing or a flange smaller than the mouth.
    Source: Machinery's Handbook, diameters of shell blanks: √(2ds), √(d₂² - d₁² + 2d₁s); Hodgson for the frustum.
    """
    guards.above_zero("mouth", "m", mouth)
    guards.not_negative("height", "m", height)
    guards.not_negative("bottom", "m", bottom)
    slant = hypot(height, (mouth - bottom) / 2)
    return sqrt(bottom**2 + 2 * (mouth + bottom) * slant + _rim(mouth, flange, trim) - mouth**2)


def blank_of_cap(mouth: float, height: float, flange: float | None = None, trim: float = 0.0) -> float:
    """Blank (m) of a piece of a sphere, ``mouth`` wide and ``height`` high; half a sphere is half as high as wide.

    Raises ``Impossible`` for sizes of nothing or a flange smaller than the mouth.
    Source: Machinery's Handbook, diameters of shell blanks: √(c² + 4h²), √2 d for the half sphere.
    """
    guards.above_zero("mouth", "m", mouth)
    guards.above_zero("height", "m", height)
    return sqrt(4 * height**2 + _rim(mouth, flange, trim))


def blank_of_profile(start: Point, pieces: Sequence[Piece], trim: float = 0.0) -> float:
    """Blank (m) of any shell given by its profile from the middle to the rim; ``trim`` as a band at the rim.

    Raises ``Impossible`` as ``surface_area`` does. Source: equal area, with Pappus' rule for each piece.
    """
    area = surface_area(start, pieces)
    return blank_of_area(area + 2 * pi * pieces[-1].to[0] * guards.not_negative("trim", "m", trim))


def _rim(mouth: float, flange: float | None, trim: float) -> float:
    """Square of the mouth, and what the flange and the trim add to the square of the blank."""
    guards.not_negative("trim", "m", trim)
    if flange is None:
        return mouth**2 + 4 * mouth * trim
    return (guards.at_least("flange", "m", flange, mouth, "diameter it stands on") + 2 * trim) ** 2
