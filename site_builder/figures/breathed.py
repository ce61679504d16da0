"""Fume, dust and vapour: the limit that is told of a material, and what was measured in the air of the work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import NamedTuple

from site_builder.figures.amounts import amount, percent
from site_builder.figures.at_machines import DECIDES, Shift, shift_of
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, guarded, limits_by_name, once, property_of
from site_builder.formulas.interval import Interval
from site_builder.quantity import same_dimensions
from site_builder.safety.air import Breathed, mixture_share, shift_average

LIMIT, MEASURED = "exposure limit", "measured in the air"
"""A property of a material; a condition of the work."""
KINDS = ("density", "ratio")
"""mg/m³ or ppm."""
_SOURCE = "29 CFR 1910.1000(d), average over eight hours"


class InTheAir(NamedTuple):
    """What was measured in the air of a work, and the limit of the material it is held against."""

    measured: Given
    limit: Given
    material: str
    shift: Shift

    @property
    def share(self) -> Interval:
        """How much of the limit a full day uses up: 1 is all of it. Raises ``Impossible``."""
        averages = [shift_average([Breathed(end, self.shift.hours)]) for end in (self.measured.span.low,
                                                                                 self.measured.span.high)]
        limit = self.limit.span.low
        return Interval(*(mixture_share([(average, limit)]) for average in averages))


@once
def limits_told(known: FigureInputs) -> Mapping[str, Given]:
    """Materials with the limit of what they give off into the air."""
    found: dict[str, Given] = {}
    for _, place in limits_by_name(known).get(LIMIT, ()):
        if place.key == "properties" and place.owner_id in known.notebook.materials:
            given = property_of(known, place.owner_id, LIMIT)
            if given is not None and given.unit.kind in KINDS:
                found[place.owner_id] = given
    return found


def in_the_air(known: FigureInputs) -> Iterator[tuple[str, InTheAir]]:
    """Procedures whose air was measured, with the one material of theirs whose limit is in the same unit."""
    for limit, place in limits_by_name(known).get(MEASURED, ()):
        if place.procedure is None or place.key != "conditions" or limit.written is None:
            continue
        measured = given_here(known, limit.written, MEASURED, "procedure", place.owner_id, place.step)
        if measured is None or measured.unit.kind not in KINDS:
            continue
        works = (place.procedure, *place.procedure.steps)
        used = dict.fromkeys(str(use.material) for work in works for use in work.materials)
        fitting = [(id_, told) for id_ in used if (told := limits_told(known).get(id_)) is not None
                   and same_dimensions(told.unit, measured.unit)]
        if len(fitting) == 1:
            yield place.owner_id, InTheAir(measured, fitting[0][1], fitting[0][0], shift_of(known))


def air_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of the air: each material with a limit, and each work whose air was measured."""
    for id_, given in limits_told(known).items():
        yield Figure(
            "material", id_,
            f"The air that is breathed may hold {_amount(given)} of what it gives off, on average over eight hours. "
            "Whether it does here, nobody can reckon: only measuring tells.",
            (given.input,), "limit of exposure", str(_source(known, id_)), DECIDES,
        )
    for id_, air in in_the_air(known):
        inputs = [air.measured.input, air.limit.input, air.shift.input]
        yield from guarded(partial(_measured, known, id_, air, inputs), inputs)


def _measured(known: FigureInputs, id_: str, air: InTheAir, inputs: list[Input]) -> Iterator[Figure]:
    share, title = air.share, known.notebook.materials[air.material].title
    sentence = (f"A full day, {air.shift.hours:g}{NO_BREAK}h in air like the one that was measured, uses up "
                f"{percent(share)} of the limit for “{title}”, {air.limit.input.written}.")
    yield Figure("procedure", id_, sentence, tuple(inputs), "eight-hour average over its limit", _SOURCE,
                 f"It holds for a day like that of the measurement. {DECIDES}", air.measured.input.step)


def _amount(given: Given) -> str:
    return amount(given.span, given.unit.symbol)


def _source(known: FigureInputs, id_: str) -> str:
    limits = known.notebook.materials[id_].properties.items()
    told = next((limit.source for name, found in limits if name == LIMIT for limit in found), None)
    named = known.notebook.shop.sources.get(told) if known.notebook.shop is not None and told is not None else None
    return named.title if named is not None else str(told or "as the shop wrote it")
