"""Grits in the order of the work, and steps between them that are too coarse for the next to remove."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from site_builder.figures.batch_words import listed
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import limits_by_name, once
from site_builder.formulas.errors import Impossible
from site_builder.formulas.grits import CoarseStep, Grit, coarse_steps, grain_size, grit
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import At
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.procedure import Procedure, Step

GRIT = "grit"
_GRADE = re.compile(r"(?:P|F|CAMI)\s?\d+", re.IGNORECASE)
_SOURCE = "common practice: do not skip more than one grade; grain sizes of ISO 6344, FEPA 42 and 43, CAMI"


class Sanding(NamedTuple):
    """One grade used in a step, and the line that says so."""

    grade: str
    at: At
    step: Step | None
    condition: Condition


class TooCoarse(NamedTuple):
    """A step between two grits that is too large, with where the finer one stands."""

    procedure: str
    at: At
    step: CoarseStep


@once
def sandings(known: FigureInputs) -> dict[str, tuple[Sanding, ...]]:
    """Of each procedure the grades in the order of its steps; what is no grade of a standard is left out."""
    found: dict[str, list[Sanding]] = {}
    for limit, place in limits_by_name(known).get(GRIT, ()):
        if place.key != "settings" or place.procedure is None or limit.written is None:
            continue
        step = place.step
        condition = limit.for_ or (step.for_ if step is not None else ())
        for match in _GRADE.finditer(str(limit.written)):
            at = limit.written.text.at_letter(match.start())
            found.setdefault(place.owner_id, []).append(Sanding(match[0], at, step, condition))
    return {id_: tuple(row) for id_, row in found.items()}


def too_coarse(known: FigureInputs) -> Iterator[TooCoarse]:
    """Each step to a finer grit that leaves scratches behind."""
    for id_, row in sandings(known).items():
        for before, after in _pairs(row):
            try:
                yield from (TooCoarse(id_, after.at, step) for step in coarse_steps((before.grade, after.grade)))
            except Impossible:
                continue


def grit_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of grits: the sequence of a procedure that uses more than one."""
    for id_, row in sandings(known).items():
        for one in row:
            yield from _grade_fault(one)
        told = [one for one in row if _grade_of(one) is not None]
        if len({one.grade for one in told}) > 1:
            yield from _sequence(known.notebook.procedures[id_], told)


def _sequence(own: Procedure, row: Sequence[Sanding]) -> Iterator[Figure]:
    id_ = str(own.procedure)
    steps = [coarse_steps((before.grade, after.grade)) for before, after in _pairs(row)]
    grades = list(dict.fromkeys(str(grit(one.grade)) for one in row))
    sizes = [f"{grain_size(grade).middle * 1e6:.0f}" for grade in grades]
    if any(steps):
        missing = [str(grade) for step in steps for coarse in step for grade in coarse.between]
        rest = f"too coarse a step, {listed(missing)} missing" if missing else "one step is too large"
    else:
        rest = "each takes out the scratches of the one before"
    back = [(before.grade, after.grade) for before, after in _pairs(row)
            if grain_size(after.grade).middle > grain_size(before.grade).middle * 1.01]
    if back:
        rest = f"{rest}; " if any(steps) else ""
        rest += listed(f"{grit(after)} after {grit(before)} cuts deeper scratches again" for before, after in back)
    sentence = f"{listed(grades, 'then')} cut with grains of {listed(sizes, 'and')} µm: {rest}."
    inputs = tuple(Input(GRIT, one.grade, "procedure", id_, one.step, one.at) for one in row)
    yield Figure("procedure", id_, sentence, inputs, "grit sequence", _SOURCE)


def _pairs(row: Sequence[Sanding]) -> Iterator[tuple[Sanding, Sanding]]:
    """Each grade with those that may come right before it: a step only for one variant hides none for the others."""
    for number, after in enumerate(row):
        between: list[Condition] = []
        for before in reversed(row[:number]):
            hidden = any(one in ((), before.condition, after.condition) for one in between)
            if hidden or exclude(before.condition, after.condition):
                continue
            between.append(before.condition)
            yield before, after


def _grade_of(one: Sanding) -> Grit | None:
    try:
        return grit(one.grade)
    except Impossible:
        return None


def _grade_fault(one: Sanding) -> Iterator[Fault]:
    try:
        grit(one.grade)
    except Impossible as problem:
        yield Fault(one.at, str(problem))


