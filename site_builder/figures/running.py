"""Speeds that are set for wheels and belts, how fast their surface runs, and what is recommended for it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, limits_by_name, once, property_of
from site_builder.figures.metals import main_metal, metals_of
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.speed_bands import SpeedBand, Wheel, speed_band
from site_builder.formulas.surface_speed import surface_speed
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Tooling

RUNNING = ("speed", "belt speed", "spindle speed", "wheel speed", "mop speed", "rim speed", "surface speed")
"""Settings that the `rated speed` of a machine or its tooling is meant for."""

TURNS, SURFACE = "rotation speed", "speed"
_KINDS: tuple[tuple[str, Wheel], ...] = (("belt", "belt"), ("polishing wheel", "polishing wheel"), ("buff", "buff"),
                                         ("mop", "buff"))


class Running(NamedTuple):
    """A speed that is set in a procedure, with one of the wheels or belts it is set for."""

    given: Given
    procedure: Procedure
    step: Step | None
    tooling: str
    size: Given | None
    """Across a new wheel; None for a belt, or where it is not told."""

    @property
    def surface(self) -> Interval | None:
        """m/s of the surface; None where turns are set and the size is not told."""
        if self.given.unit.kind == SURFACE:
            return self.given.span
        if self.size is None or self.given.unit.kind != TURNS:
            return None
        return spread(surface_speed, self.size.span, self.given.span)


class Outside(NamedTuple):
    """A surface speed that is nowhere in the band for this wheel on this work."""

    running: Running
    surface: Interval
    band: SpeedBand
    wheel: Wheel
    work: str


@once
def runnings(known: FigureInputs) -> tuple[Running, ...]:
    """Every speed set for wheels or belts."""
    return tuple(_runnings(known))


def outside_bands(known: FigureInputs) -> Iterator[Outside]:
    """Settings of which no part lies in the recommended band, with none of the wheels that hang ready."""
    for _, hanging in groupby(runnings(known), key=lambda one: one.given):
        found = [_outside(known, one) for one in hanging]
        if found[0] is not None and all(found):
            yield found[0]


def _outside(known: FigureInputs, one: Running) -> Outside | None:
    found = band_of(known, one)
    try:
        surface = one.surface
    except Impossible:
        return None
    if found is None or surface is None or (found[0].speeds & surface) is not None:
        return None
    return Outside(one, surface, *found)


def band_of(known: FigureInputs, one: Running) -> tuple[SpeedBand, Wheel, str] | None:
    """What is recommended for its kind of wheel on the metal of the part; None where nothing is published."""
    tooling = known.notebook.tools[one.tooling]
    words = f"{one.tooling.replace('-', ' ')} {tooling.title.lower()}"
    wheel = next((kind for word, kind in _KINDS if word in words), None)
    metals = {main_metal(known, known.notebook.materials[m])
              for m in metals_of(known, known.notebook.parts_of(one.procedure))}
    if wheel is None or len(metals) != 1 or "" in metals:
        return None
    work = metals.pop()
    try:
        return speed_band(wheel, work), wheel, work
    except Impossible:
        return None


def _runnings(known: FigureInputs) -> Iterator[Running]:
    for name in RUNNING:
        for limit, place in limits_by_name(known).get(name, ()):
            own = place.procedure
            if own is None or place.key != "settings":
                continue
            toolings = _toolings(known, str(limit.tool or ""), (place.step, own), name)
            for _, cell in limit.cells() if toolings else ():
                given = given_here(known, cell.written, name, "procedure", place.owner_id, place.step) \
                    if cell.written is not None else None
                if given is None or given.unit.kind not in (TURNS, SURFACE):
                    continue
                for id_ in toolings:
                    size = property_of(known, id_, "wheel size")
                    size = size if size is not None and size.unit.kind == "length" else None
                    if size is not None or given.unit.kind == SURFACE:
                        yield Running(given, own, place.step, id_, size)


def _toolings(known: FigureInputs, named: str, works: tuple[Work | None, ...], name: str) -> list[str]:
    """The wheels or belts it is set for: the one named, else those of the step, else of the procedure."""
    tools = known.notebook.tools
    if isinstance(tools.get(named), Tooling):
        return [named]
    for work in works:
        used = [str(use.tool) for use in work.tools if isinstance(tools.get(use.tool), Tooling)] if work else []
        running = [id_ for id_ in used if _runs_so(known, id_, name)]
        if running:
            return running
    return []


def _runs_so(known: FigureInputs, id_: str, name: str) -> bool:
    """Whether a tooling is one that this setting makes run: a wheel with its size, a belt for a belt speed."""
    is_belt = "belt" in f"{id_} {known.notebook.tools[id_].title.lower()}"
    return is_belt if name == "belt speed" else property_of(known, id_, "wheel size") is not None or is_belt


