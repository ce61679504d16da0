"""Spun shells: their shape as the shop writes it among the sizes of a part.

Either ``profile: outline in mm 0/128 33/128 through 40/120 42/113 98/0``, points of radius and height from the middle
to the rim, ``through`` before a point that an arc runs through; or ``shape: cup``, ``cone`` or ``cap`` with ``mouth``
(or ``rim``), ``height``, and where there are any ``bottom`` and ``flange``. ``trim`` is what is cut off at the rim,
``disc`` (or ``blank``) what the shop cuts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_of, once
from site_builder.formulas.blanks import blank_of_cap, blank_of_cone, blank_of_cup, blank_of_profile
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.profile import Arc, Line, Piece, Point
from site_builder.notebook.finding import At
from site_builder.notebook.model.shop import Part
from site_builder.notebook.tree import Text
from site_builder.quantity import find_unit

PROFILE, SHAPE, TRIM = "profile", "shape", "trim"
DISCS, MOUTHS = ("disc", "blank"), ("mouth", "rim")
SHAPES = ("cup", "cone", "cap")
_OUTLINE = re.compile(r"outline in (mm|cm|m|in)\s+(\S.*)")
_POINT = re.compile(r"(through\s+)?(?<!\d)(\d+(?:\.\d+)?)/(-?\d+(?:\.\d+)?)\s*")


class Outline(NamedTuple):
    """A profile in metres, from its first point on."""

    start: Point
    pieces: tuple[Piece, ...]


class Shell(NamedTuple):
    """A part that is spun from a disc."""

    part: str
    disc: Given
    shape: str
    """``cup``, ``cone``, ``cap`` or ``outline``; empty where it is not told."""
    told: Input | None
    outline: Outline | None
    sizes: dict[str, Given]
    at: At

    @property
    def mouth(self) -> Interval | None:
        """Diameter at the rim."""
        if self.outline is not None:
            last = self.outline.pieces[-1].to[0] * 2
            return Interval(last, last)
        mouth = next((self.sizes[name] for name in MOUTHS if name in self.sizes), None)
        return mouth.span if mouth is not None else None

    @property
    def inputs(self) -> tuple[Input, ...]:
        """Disc and shape, with the sizes that count."""
        used = [given.input for name, given in self.sizes.items() if self.outline is None or name == TRIM]
        return (self.disc.input, *((self.told,) if self.told is not None else ()), *used)

    def blank(self, *, with_trim: bool = True) -> Interval | None:
        """Diameter of the disc with as much surface; None where the shape is not told. Raises ``Impossible``."""
        trim = self.sizes[TRIM].span if with_trim and TRIM in self.sizes else Interval(0, 0)
        if self.outline is not None:
            return spread(partial(blank_of_profile, *self.outline), trim)
        mouth, height = self.mouth, self.sizes.get("height")
        if self.shape not in SHAPES or mouth is None or height is None:
            return None
        more: dict[str, Interval] = {"trim": trim}
        if "flange" in self.sizes:
            more["flange"] = self.sizes["flange"].span
        if self.shape == "cup":
            return spread(blank_of_cup, mouth, height.span, **more)
        if self.shape == "cap":
            return spread(blank_of_cap, mouth, height.span, **more)
        bottom = self.sizes["bottom"].span if "bottom" in self.sizes else Interval(0, 0)
        return spread(blank_of_cone, mouth, height.span, bottom, **more)


@once
def shells(known: FigureInputs) -> tuple[Shell, ...]:
    """Every part with a disc to spin it from; what its outline says wrong is told by ``outline_faults``."""
    return tuple(_shells(known))


def _shells(known: FigureInputs) -> Iterator[Shell]:
    for id_, part in known.notebook.parts.items():
        disc = next((given for name in DISCS if (given := _size(known, id_, part, name)) is not None), None)
        if disc is None:
            continue
        outline, shape, told = None, "", None
        leaf = _word(part, PROFILE)
        if leaf is not None:
            told = Input(PROFILE, str(leaf), "part", id_, at=leaf.at)
            try:
                outline, shape = read_outline(str(leaf)), "outline"
            except Impossible:
                outline = None
        else:
            leaf = _word(part, SHAPE)
            if leaf is not None:
                shape, told = str(leaf).strip(), Input(SHAPE, str(leaf), "part", id_, at=leaf.at)
        names = (*MOUTHS, "height", "bottom", "flange", TRIM)
        sizes = {name: given for name in names if (given := _size(known, id_, part, name)) is not None}
        yield Shell(id_, disc, shape, told, outline, sizes, part.at)


def outline_faults(known: FigureInputs) -> Iterator[tuple[At, Impossible]]:
    """Outlines and shapes that cannot be read."""
    for one in shells(known):
        if one.told is None or one.told.at is None:
            continue
        try:
            if one.told.name == PROFILE:
                read_outline(one.told.written)
            elif one.shape not in SHAPES:
                raise Impossible(SHAPE, "", one.shape, f"must be one of {', '.join(SHAPES)}")
        except Impossible as problem:
            yield one.told.at, problem


def read_outline(text: str) -> Outline:
    """The points of ``outline in mm 0/128 33/128 …`` in metres.

    Raises ``Impossible`` for another form, fewer than two points, or ``through`` where no arc can be.
    """
    found = _OUTLINE.fullmatch(text.strip())
    unit = find_unit(found[1]) if found is not None else None
    points = list(_POINT.finditer(found[2])) if found is not None else []
    if found is None or unit is None or "".join(point[0] for point in points) != found[2]:
        raise Impossible(PROFILE, "", text, "must be written as `outline in mm 0/128 33/128 98/0`")
    factor = float(unit.factor)
    rows = [(bool(point[1]), (float(point[2]) * factor, float(point[3]) * factor)) for point in points]
    if len(rows) < 2 or rows[0][0] or rows[-1][0]:
        raise Impossible(PROFILE, "", text, "must begin and end with a point, and have two at least")
    pieces: list[Piece] = []
    over: Point | None = None
    for through, point in rows[1:]:
        if through and over is not None:
            raise Impossible(PROFILE, "", text, "must have a point after each `through`")
        if through:
            over = point
        else:
            pieces.append(Line(point) if over is None else Arc(over, point))
            over = None
    return Outline(rows[0][1], tuple(pieces))


def _word(part: Part, name: str) -> Text | None:
    limits = part.sizes.get(Text(name), ())
    return limits[0].written.text if limits and limits[0].written is not None else None


def _size(known: FigureInputs, id_: str, part: Part, name: str) -> Given | None:
    limits = part.sizes.get(Text(name), ())
    given = given_of(known, limits, name, "part", id_) if limits else None
    return given if given is not None and given.unit.kind == "length" else None
