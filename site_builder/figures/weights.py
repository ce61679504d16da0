"""Masses of parts that are told, against those which their volume and their metal give."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, property_of
from site_builder.figures.metals import metals_of
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.metal_needed import part_mass
from site_builder.notebook.conditions import exclude
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.shop import Part
from site_builder.notebook.tree import Text

_APART = 0.1
"""So far apart they may be: pores, gates left on and a volume that was dipped account for a tenth, not for more."""


class MassOff(NamedTuple):
    """A mass that its own volume and density do not give: what they give instead, in kilograms."""

    part: str
    material: str
    told: Given
    volume: Given
    density: Given
    gives: Interval


def masses_off(known: FigureInputs) -> Iterator[MassOff]:
    """Every part of one material whose mass is told and is none that its volume can have in it."""
    for id_, part in known.notebook.parts.items():
        materials = metals_of(known, (id_,))
        masses, volumes = (part.sizes.get(Text(name), ()) for name in ("mass", "volume"))
        if not masses or not volumes or len(materials) != 1:
            continue
        density = property_of(known, materials[0], "density")
        if density is not None and density.unit.kind == "density":
            for limit in masses:
                yield from _off(known, id_, part, limit, materials[0], density)


def _off(known: FigureInputs, id_: str, part: Part, limit: Limit, material: str, density: Given) -> Iterator[MassOff]:
    volumes = [one for one in part.sizes.get(Text("volume"), ()) if not exclude(one.for_, limit.for_)]
    for rows, cell in limit.cells():
        told = given_here(known, cell.written, "mass", "part", id_) if cell.written is not None else None
        chosen = {str(by.name): str(row) for by, row in zip(limit.by, rows, strict=False)}
        volume = given_of(known, volumes, "volume", "part", id_, chosen=chosen)
        if told is None or volume is None or told.unit.kind != "mass" or volume.unit.kind != "volume":
            continue
        try:
            gives = spread(part_mass, volume.span, density.span)
        except Impossible:
            continue  # told of as a fault of its own, at the line that wrote it
        if told.span.high < gives.low * (1 - _APART) or told.span.low > gives.high * (1 + _APART):
            yield MassOff(id_, material, told, volume, density, gives)
