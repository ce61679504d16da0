"""Wheels and belts: how fast their surface runs, new and worn, and whether they bear it and it suits the work."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import groupby
from typing import NamedTuple

from site_builder.craft.errors import Impossible
from site_builder.craft.interval import Interval, spread
from site_builder.craft.speed_bands import SpeedBand, Wheel, speed_band
from site_builder.craft.surface_speed import belt_speed, over_rating, surface_speed, turns_for
from site_builder.figures.amounts import about, amount, both, percent_of
from site_builder.figures.batch_words import listed
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.given import Given, given_here, guarded, limits_by_name, once, property_of
from site_builder.figures.known import Known
from site_builder.figures.metals import main_metal, metals_of
from site_builder.figures.worn import size_now
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Machine, Tooling

RUNNING = ("speed", "belt speed", "spindle speed", "wheel speed", "mop speed", "rim speed")
"""Settings that the `rated speed` of a machine or its tooling is meant for."""

TURNS, SURFACE = "rotation speed", "speed"
_SPEED_SOURCE = "definition, π d n; wheel makers' tables"
_KINDS: tuple[tuple[str, Wheel], ...] = (("belt", "belt"), ("polishing wheel", "polishing wheel"), ("buff", "buff"),
                                         ("mop", "buff"))
_CAUTION = ("What is marked on the wheel or the belt comes before any figure here; so do the maker's instructions and "
            "the guard.")


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


class OverRated(NamedTuple):
    """A speed over the rating, which is told in the other measure or only for the machine."""

    given: Given
    tooling: str
    rated: Given
    runs: float
    """What it comes to, in base units of the rating."""
    share: float
    procedure: str


@once
def runnings(known: Known) -> tuple[Running, ...]:
    """Every speed set for wheels or belts."""
    return tuple(_runnings(known))


def over_rated(known: Known) -> Iterator[OverRated]:
    """Speeds over a rating that is told in turns where the surface is set, or the other way, or set by the machine."""
    for _, hanging in groupby(runnings(known), key=lambda one: one.given):
        found = [list(_over_set(known, one)) for one in hanging]
        if all(found):  # of several that hang ready, one that bears it will do
            yield from found[0]
    yield from _over_by_machine(known)


def outside_bands(known: Known) -> Iterator[Outside]:
    """Settings of which no part lies in the recommended band, with none of the wheels that hang ready."""
    for _, hanging in groupby(runnings(known), key=lambda one: one.given):
        found = [_outside(known, one) for one in hanging]
        if found[0] is not None and all(found):
            yield found[0]


def _outside(known: Known, one: Running) -> Outside | None:
    found = band_of(known, one)
    try:
        surface = one.surface
    except Impossible:
        return None
    if found is None or surface is None or (found[0].speeds & surface) is not None:
        return None
    return Outside(one, surface, *found)


def band_of(known: Known, one: Running) -> tuple[SpeedBand, Wheel, str] | None:
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


def wheel_figures(known: Known) -> Iterator[Figure | Missing | Fault]:
    """The chapter of wheels: once for each wheel and speed of a procedure, and once for each belt machine."""
    alike: dict[object, list[Running]] = {}
    for one in runnings(known):
        rated = property_of(known, one.tooling, "rated speed")
        key = (str(one.procedure.procedure), one.given.span, one.size.span if one.size is not None else one.tooling,
               rated.span if rated is not None else None, band_of(known, one))
        alike.setdefault(key, []).append(one)
    for group in alike.values():
        one = group[0]
        inputs = [one.given.input] + ([one.size.input] if one.size is not None else [])
        yield from guarded(partial(_runs, known, one, [other.tooling for other in group]), inputs)
        for tooling in dict.fromkeys(other.tooling for other in group):
            yield from guarded(partial(_worn, known, one, tooling), inputs)
    for id_, tool in known.notebook.tools.items():
        if isinstance(tool, Machine):
            drive, turns = property_of(known, id_, "drive wheel"), property_of(known, id_, "motor speed")
            if drive is not None and turns is not None:
                yield from guarded(partial(_belt, id_, drive, turns), [drive.input, turns.input])


def _runs(known: Known, one: Running, toolings: list[str]) -> Iterator[Figure]:
    surface, given = one.surface, one.given
    if surface is None:
        return
    title = listed([f"“{known.notebook.tools[id_].title}”" for id_ in dict.fromkeys(toolings)], "or")
    own = str(one.procedure.procedure)
    inputs: tuple[Input, ...] = (given.input,)
    words = about(both(surface, "m/s", "ft/min", given.is_inch), given.rough)
    if one.size is not None and given.unit.kind == TURNS:
        inputs += (one.size.input,)
        sentence = f"The rim of a new {title} runs at {words}."
    else:
        sentence = f"{title} runs at {words}."
    found = band_of(known, one)
    source = _SPEED_SOURCE
    if found is not None:
        band, wheel, work = found
        sentence += f" Recommended for a {wheel} on {work}: {both(band.speeds, 'm/s', 'ft/min', given.is_inch)}."
        source += f"; {band.source}"
    rated = property_of(known, one.tooling, "rated speed")
    if rated is not None:
        sentence += _room(one, surface, rated)
        inputs += (rated.input,)
    yield Figure("procedure", own, sentence, inputs, "surface speed", source, _CAUTION, one.step)


def _room(one: Running, surface: Interval, rated: Given) -> str:
    """How much is left to the speed that is marked on it."""
    runs = None
    if rated.unit.kind == one.given.unit.kind:
        runs = one.given.span.high
    elif rated.unit.kind == SURFACE:
        runs = surface.high
    elif one.size is not None and rated.unit.kind == TURNS:
        runs = turns_for(surface.high, one.size.span.low)
    if runs is None or (share := over_rating(runs, rated.span.high)) > 0:
        return ""
    most = amount(Interval.around(rated.span.high, 0), rated.unit.symbol, 4)
    return f" It is rated for {most}; {percent_of(-share)} of that is left."


def _worn(known: Known, one: Running, tooling: str) -> Iterator[Figure]:
    """The wheel as it was last measured, or worn to where it is thrown away."""
    now, new = size_now(known, tooling), one.surface
    given, title = one.given, known.notebook.tools[tooling].title
    if one.size is None or new is None or now is None or given.unit.kind != TURNS:
        return
    if now.span.high >= one.size.span.low:
        return
    rated = property_of(known, tooling, "rated speed")
    surface = spread(surface_speed, now.span, given.span)
    length = both(now.span, "mm", "in", now.is_inch)
    words = both(surface, "m/s", "ft/min", given.is_inch)
    sentence = f"“{title}” worn to {length} runs at {words} at the same turns."
    inputs: tuple[Input, ...] = (given.input, now.input)
    catching = Interval(turns_for(new.low, now.span.high), turns_for(new.high, now.span.low))
    most = rated.span.high if rated is not None and rated.unit.kind == TURNS else None
    if most is None or catching.high <= most:
        sentence += f" To run as it did when new it wants {amount(catching, 'rev/min')}."
    elif catching.low <= most and rated is not None:
        sentence += (f" To run as it did when new it would want {amount(catching, 'rev/min')}, and more than "
                     f"{amount(Interval.around(most, 0), 'rev/min', 4)} it does not bear.")
        inputs += (rated.input,)
    yield Figure("procedure", str(one.procedure.procedure), sentence, inputs, "surface speed of a worn wheel",
                 _SPEED_SOURCE, "The spindle has a rating too. The lower of the two holds.", one.step)


def _belt(id_: str, drive: Given, turns: Given) -> Iterator[Figure]:
    speed = spread(belt_speed, drive.span, turns.span)
    sentence = (f"A drive wheel of {both(drive.span, 'mm', 'in', drive.is_inch)} at {amount(turns.span, 'rev/min', 4)} "
                f"drives the belt at {both(speed, 'm/s', 'ft/min', drive.is_inch)}, less what it slips.")
    yield Figure("tool", id_, sentence, (drive.input, turns.input), "belt speed", _SPEED_SOURCE, _CAUTION)


def _runnings(known: Known) -> Iterator[Running]:
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


def _toolings(known: Known, named: str, works: tuple[Work | None, ...], name: str) -> list[str]:
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


def _runs_so(known: Known, id_: str, name: str) -> bool:
    """Whether a tooling is one that this setting makes run: a wheel with its size, a belt for a belt speed."""
    is_belt = "belt" in f"{id_} {known.notebook.tools[id_].title.lower()}"
    return is_belt if name == "belt speed" else property_of(known, id_, "wheel size") is not None or is_belt


def _over_set(known: Known, one: Running) -> Iterator[OverRated]:
    rated = property_of(known, one.tooling, "rated speed")
    if rated is not None and {one.given.unit.kind, rated.unit.kind} == {TURNS, SURFACE} and one.size is not None:
        yield from _over(one.given, one.size, one.tooling, rated, str(one.procedure.procedure))


def _over(given: Given, size: Given, tooling: str, rated: Given, procedure: str) -> Iterator[OverRated]:
    """Turns against a rated surface speed, or the other way round, at the fastest."""
    try:
        if given.unit.kind == TURNS:
            runs = surface_speed(size.span.high, given.span.high)
        else:
            runs = turns_for(given.span.high, size.span.low)
        share = over_rating(runs, rated.span.high)
    except Impossible:
        return
    if share > 0:
        yield OverRated(given, tooling, rated, runs, share, procedure)


def _over_by_machine(known: Known) -> Iterator[OverRated]:
    """A machine that turns at one speed only, with a wheel or belt on it that does not bear it."""
    nb = known.notebook
    told = {(str(one.procedure.procedure), one.tooling) for one in runnings(known)}
    seen: set[tuple[str, str]] = set()
    for id_, own in nb.procedures.items():
        used = [str(use.tool) for use in own.tools if use.tool in nb.tools]
        toolings = [t for t in used if isinstance(nb.tools[t], Tooling) and (id_, t) not in told]
        machines = [t for t in used if isinstance(nb.tools[t], Machine)] if toolings else []
        if len(machines) != 1:
            continue
        for tooling in toolings:
            pair = (machines[0], tooling)
            rated = property_of(known, tooling, "rated speed") if pair not in seen else None
            seen.add(pair)
            if rated is not None:
                yield from _fixed(known, machines[0], tooling, rated, id_)


def _fixed(known: Known, machine: str, tooling: str, rated: Given, procedure: str) -> Iterator[OverRated]:
    size = property_of(known, tooling, "wheel size")
    for name in ("spindle speed", "belt speed", "speed"):
        given = property_of(known, machine, name)
        if given is None or given.span.low != given.span.high or given.input.written.startswith("max"):
            continue
        if given.unit.kind == rated.unit.kind:
            share = over_rating(given.span.high, rated.span.high) if rated.span.high > 0 else 0
            if share > 0:
                yield OverRated(given, tooling, rated, given.span.high, share, procedure)
        elif size is not None and {given.unit.kind, rated.unit.kind} == {TURNS, SURFACE}:
            yield from _over(given, size, tooling, rated, procedure)
        return


def rating_words(one: OverRated) -> tuple[str, str]:
    """What it runs at and what it is rated for, in the unit of the rating."""
    unit = one.rated.unit.symbol
    return amount(Interval.around(one.runs, 0), unit), amount(Interval.around(one.rated.span.high, 0), unit, 4)


