"""Speeds that are set for wheels and belts, how fast their surface runs, and what is recommended for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from typing import NamedTuple

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, limits_by_name, once, property_of, property_rows, rows_of
from site_builder.figures.metals import main_metal, metals_of
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.speed_bands import SpeedBand, Wheel, speed_band
from site_builder.formulas.surface_speed import surface_speed
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Tooling
from site_builder.notebook.ways import around, can_hold_together, together

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
    holds: Condition = ()
    """When the speed and the size hold together; empty where they always do."""
    sure: bool = True
    """Whether it is told which wheel runs so: of several wheels and several speeds it may be another."""

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
            outside = around(place)
            toolings = _toolings(known, str(limit.tool or ""), (place.step, own), name, outside)
            for given in rows_of(known, (limit,), name, "procedure", place.owner_id, step=place.step):
                holds = together(outside, given.holds)
                if given.unit.kind not in (TURNS, SURFACE) or not can_hold_together(outside, given.holds):
                    continue
                meant = _named_in(holds, toolings) or toolings
                sure = len(meant) == 1 or _is_told(known, own, place.step, meant)
                for id_ in meant:
                    found = Running(replace(given, holds=holds), own, place.step, id_, None, holds, sure)
                    yield from _with_sizes(known, found)


def _with_sizes(known: FigureInputs, one: Running) -> Iterator[Running]:
    """Once for each size of the wheel that can hold together with the speed."""
    sizes = [size for size in property_rows(known, one.tooling, "wheel size", one.holds) if size.unit.kind == "length"]
    for size in sizes:
        yield one._replace(size=size, holds=together(one.holds, size.holds))
    if not sizes and one.given.unit.kind == SURFACE:
        yield one


def _named_in(holds: Condition, toolings: list[str]) -> list[str]:
    """The wheels that a row or a `for` names."""
    named = {str(value) for choice in holds for values in choice.values() for value in values}
    return [id_ for id_ in toolings if id_ in named]


def _is_told(known: FigureInputs, own: Procedure, step: Step | None, toolings: list[str]) -> bool:
    """Whether these wheels all run at this speed: the step names them, or the procedure sets no other speed."""
    if step is not None and set(toolings) <= {str(use.tool) for use in step.tools}:
        return True
    set_ = {str(cell.written) for name in RUNNING for limit, place in limits_by_name(known).get(name, ())
            if place.owner is own and place.key == "settings" for _, cell in limit.cells()}
    return len(set_) < 2


def _toolings(
    known: FigureInputs, named: str, works: tuple[Work | None, ...], name: str, outside: Condition
) -> list[str]:
    """The wheels or belts it is set for: the one named, else those of the step, else of the procedure."""
    tools = known.notebook.tools
    if isinstance(tools.get(named), Tooling):
        return [named]
    for work in works:
        used = [str(use.tool) for use in work.tools if isinstance(tools.get(use.tool), Tooling)
                and can_hold_together(use.for_, outside)] if work else []
        running = [id_ for id_ in used if _runs_so(known, id_, name)]
        if running:
            return running
    return []


def _runs_so(known: FigureInputs, id_: str, name: str) -> bool:
    """Whether a tooling is one that this setting makes run: a wheel with its size, a belt for a belt speed."""
    is_belt = "belt" in f"{id_} {known.notebook.tools[id_].title.lower()}"
    return is_belt if name == "belt speed" else property_of(known, id_, "wheel size") is not None or is_belt


