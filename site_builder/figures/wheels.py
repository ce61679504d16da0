"""Wheels and belts: how fast their surface runs, new and worn, and whether they bear it and it suits the work."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.figures.amounts import about, amount, both, percent_of
from site_builder.figures.batch_words import capital, listed
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, guarded, property_of, property_rows
from site_builder.figures.running import SURFACE, TURNS, Running, band_of, runnings
from site_builder.figures.worn import size_now
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.surface_speed import belt_speed, over_rating, surface_speed, turns_for
from site_builder.notebook.model.things import Machine
from site_builder.notebook.ways import can_hold_together, told_condition

_SPEED_SOURCE = "definition, π d n; wheel makers' tables"
_CAUTION = ("What is marked on the wheel or the belt comes before any figure here; so do the maker's instructions and "
            "the guard.")


def wheel_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of wheels: once for each wheel and speed of a procedure, and once for each belt machine."""
    alike: dict[object, list[Running]] = {}
    for one in runnings(known):
        if not one.sure:
            continue
        rated = tuple(row.span for row in property_rows(known, one.tooling, "rated speed", one.holds))
        key = (str(one.procedure.procedure), one.given.span, one.size.span if one.size is not None else one.tooling,
               rated, band_of(known, one), told_condition(one.holds))
        alike.setdefault(key, []).append(one)
    for group in alike.values():
        one = group[0]
        inputs = [one.given.input] + ([one.size.input] if one.size is not None else [])
        yield from guarded(partial(_runs, known, one, [other.tooling for other in group]), inputs)
        worn: dict[Interval, list[str]] = {}
        for tooling in dict.fromkeys(other.tooling for other in group):
            now = size_now(known, tooling)
            if now is not None and can_hold_together(now.holds, one.holds):
                worn.setdefault(now.span, []).append(tooling)
        for toolings in worn.values():
            yield from guarded(partial(_worn, known, one, toolings), inputs)
    for id_, tool in known.notebook.tools.items():
        if isinstance(tool, Machine):
            drive, turns = property_of(known, id_, "drive wheel"), property_of(known, id_, "motor speed")
            if drive is not None and turns is not None:
                yield from guarded(partial(_belt, id_, drive, turns), [drive.input, turns.input])


def _runs(known: FigureInputs, one: Running, toolings: list[str]) -> Iterator[Figure]:
    surface, given = one.surface, one.given
    if surface is None:
        return
    title = _titles(known, toolings)
    own = str(one.procedure.procedure)
    inputs: tuple[Input, ...] = (given.input,)
    words = about(both(surface, "m/s", "ft/min", given.is_inch), given.rough)
    if one.size is not None and given.unit.kind == TURNS:
        inputs += (one.size.input,)
        sentence = f"The rim of a new {title} runs at {words}."
    else:
        sentence = f"{title} runs at {words}."
    if one.size is not None and given.unit.kind == SURFACE:
        turns = spread(turns_for, surface, one.size.span)
        inputs += (one.size.input,)
        sentence += (f" For that a new one of {both(one.size.span, 'mm', 'in', one.size.is_inch)} turns at "
                     f"{amount(turns, 'rev/min')}.")
    found = band_of(known, one)
    source = _SPEED_SOURCE
    if found is not None:
        band, wheel, work = found
        sentence += f" Recommended for a {wheel} on {work}: {both(band.speeds, 'm/s', 'ft/min', given.is_inch)}."
        source += f"; {band.source}"
    for rated in property_rows(known, one.tooling, "rated speed", one.holds):
        sentence += _room(one, surface, rated)
        inputs += (rated.input,)
    yield Figure("procedure", own, _for(one, sentence), inputs, "surface speed", source, _CAUTION, one.step)


def _for(one: Running, sentence: str) -> str:
    """The sentence with the case that it is told for, where it does not always hold."""
    case = told_condition(one.holds)
    return f"{capital(case)}: {sentence[0].lower() if sentence[:4] == 'The ' else sentence[0]}{sentence[1:]}" \
        if case else sentence


def _room(one: Running, surface: Interval, rated: Given) -> str:
    """How much is left to the speed that is marked on it."""
    runs = None
    if rated.unit.kind == one.given.unit.kind:
        runs = one.given.span.high
    elif rated.unit.kind == SURFACE:
        runs = surface.high
    elif one.size is not None and rated.unit.kind == TURNS:
        runs = turns_for(surface.high, one.size.span.low)
    if runs is None:
        return ""
    share = over_rating(runs, rated.span.high)
    most = amount(Interval.around(rated.span.high, 0), rated.unit.symbol, 4)
    if share > 0:
        return f" It is rated for {most}: this is {percent_of(share)} too fast and must not be run."
    return f" It is rated for {most}; {percent_of(-share)} of that is left."


def _worn(known: FigureInputs, one: Running, toolings: list[str]) -> Iterator[Figure]:
    """Wheels of one size as last measured, or worn to where they are thrown away."""
    now, new, given = size_now(known, toolings[0]), one.surface, one.given
    if one.size is None or new is None or now is None or given.unit.kind != TURNS:
        return
    if now.span.high >= one.size.span.low:
        return
    rated = next(iter(property_rows(known, toolings[0], "rated speed", one.holds)), None)
    surface = spread(surface_speed, now.span, given.span)
    length = both(now.span, "mm", "in", now.is_inch)
    words = both(surface, "m/s", "ft/min", given.is_inch)
    sentence = f"{_titles(known, toolings)} worn to {length} runs at {words} at the same turns."
    inputs: tuple[Input, ...] = (given.input, now.input)
    catching = Interval(turns_for(new.low, now.span.high), turns_for(new.high, now.span.low))
    most = rated.span.high if rated is not None and rated.unit.kind == TURNS else None
    if most is None or catching.high <= most:
        sentence += f" To run as it did when new it wants {amount(catching, 'rev/min')}."
    elif catching.low <= most and rated is not None:
        sentence += (f" To run as it did when new it would want {amount(catching, 'rev/min')}, and more than "
                     f"{amount(Interval.around(most, 0), 'rev/min', 4)} it does not bear.")
        inputs += (rated.input,)
    own = str(one.procedure.procedure)
    yield Figure("procedure", own, _for(one, sentence), inputs, "surface speed of a worn wheel", _SPEED_SOURCE,
                 "The spindle has a rating too. The lower of the two holds.", one.step)


def _titles(known: FigureInputs, toolings: list[str]) -> str:
    return listed((f"“{known.notebook.tools[id_].title}”" for id_ in dict.fromkeys(toolings)), "or")


def _belt(id_: str, drive: Given, turns: Given) -> Iterator[Figure]:
    speed = spread(belt_speed, drive.span, turns.span)
    sentence = (f"A drive wheel of {both(drive.span, 'mm', 'in', drive.is_inch)} at {amount(turns.span, 'rev/min', 4)} "
                f"drives the belt at {both(speed, 'm/s', 'ft/min', drive.is_inch)}, less what it slips.")
    yield Figure("tool", id_, sentence, (drive.input, turns.input), "belt speed", _SPEED_SOURCE, _CAUTION)


