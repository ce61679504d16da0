"""What plating is asked for: thicknesses as ordered, classes as named, and where the two do not go together."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, limits_by_name, once
from site_builder.formulas.errors import Impossible
from site_builder.formulas.plating_classes import CLASSES, PlatingClass, plating_class
from site_builder.notebook.finding import At
from site_builder.notebook.index import Place
from site_builder.notebook.model.procedure import Procedure

METALS = ("zinc", "copper", "nickel", "chromium", "silver", "gold", "tin", "cobalt", "iron", "lead", "palladium",
          "rhodium")
CLASS_NAMES = ("class of the coating", "plating class")
_CLASS = re.compile(r"(?:class )?(.+?) of (.+)", re.DOTALL)


class Ordered(NamedTuple):
    """A thickness that is asked for, of one metal."""

    metal: str
    name: str
    given: Given
    procedure: Procedure
    place: Place


class UnderClass(NamedTuple):
    """A thickness that is ordered thinner than its class asks for."""

    ordered: Ordered
    named: str
    wanted: PlatingClass


@once
def ordered(known: FigureInputs) -> tuple[Ordered, ...]:
    """Every thickness of a plated metal that a procedure writes itself, and does not take over."""
    return tuple(_ordered(known))


def _ordered(known: FigureInputs) -> Iterator[Ordered]:
    for name, found in limits_by_name(known).items():
        metal = name.split(" ")[0].lower()
        if metal not in METALS:
            continue
        for limit, place in found:
            own, leaf = place.procedure, limit.written
            if own is None or place.key != "limits" or leaf is None or known.reckoning.of_value.get(id(leaf)):
                continue
            given = given_here(known, leaf, name, "procedure", place.owner_id, place.step)
            if given is not None and given.unit.kind == "length" and given.span.high < 1e-3:
                yield Ordered(metal, name, given, own, place)


def classes(known: FigureInputs) -> Iterator[tuple[Place, str, PlatingClass | Impossible, At]]:
    """Every class of a coating that is named, where its standard is one that is known here."""
    for name in CLASS_NAMES:
        for limit, place in limits_by_name(known).get(name, ()):
            match = _CLASS.fullmatch(str(limit.written)) if limit.written is not None else None
            if match is None or limit.written is None or match[2] not in CLASSES:
                continue
            try:
                found: PlatingClass | Impossible = plating_class(match[2], match[1])
            except Impossible as problem:
                found = problem
            yield place, str(limit.written), found, limit.written.at


def under_class(known: FigureInputs) -> Iterator[UnderClass]:
    """Thicknesses whose least is under that of the class which the same procedure names."""
    for place, named, found, _ in classes(known):
        if isinstance(found, PlatingClass):
            for one in ordered(known):
                if one.place.owner is place.owner and one.metal == found.metal and one.given.span.low < found.least * (
                        1 - 1e-9):
                    yield UnderClass(one, named, found)
