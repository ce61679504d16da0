"""Wheels and belts that run faster than is marked on them, where the two are told in different measures."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from site_builder.figures.amounts import amount
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, property_of, property_rows
from site_builder.figures.running import SURFACE, TURNS, Running, runnings
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.formulas.surface_speed import over_rating, surface_speed, turns_for
from site_builder.notebook.model.things import Machine, Tooling


class OverRated(NamedTuple):
    """A speed over the rating, which is told in the other measure or only for the machine."""

    given: Given
    tooling: str
    rated: Given
    runs: float
    """What it comes to, in base units of the rating."""
    share: float
    procedure: str


def over_rated(known: FigureInputs) -> Iterator[OverRated]:
    """Speeds over a rating that is told in turns where the surface is set, or the other way, or set by the machine."""
    for _, hanging in groupby(runnings(known), key=lambda one: one.given):
        found = [list(_over_set(known, one)) for one in hanging]
        if all(found):  # of several that hang ready, one that bears it will do
            yield from found[0]
    yield from _over_by_machine(known)


def _over_set(known: FigureInputs, one: Running) -> Iterator[OverRated]:
    for rated in property_rows(known, one.tooling, "rated speed", one.holds):
        if {one.given.unit.kind, rated.unit.kind} == {TURNS, SURFACE} and one.size is not None:
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


def _over_by_machine(known: FigureInputs) -> Iterator[OverRated]:
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


def _fixed(known: FigureInputs, machine: str, tooling: str, rated: Given, procedure: str) -> Iterator[OverRated]:
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


