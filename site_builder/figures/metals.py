"""Metals: which are in hand, what they are mainly, and where and how hot they are poured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from site_builder.batch.returns import POURED
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, limits_by_name, once, property_of
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Material
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import around, can_hold_together

_BRASS = 0.05
"""From this share of zinc on copper is brass."""
_STAINLESS = 0.1
_SPELLED = {"aluminum": "aluminium", "iron": "steel"}
_NAMED_FOR = {"zamak": "zinc", "mazak": "zinc", "za-8": "zinc", "za-12": "zinc", "za-27": "zinc"}
"""Alloys that are called by a name in which their metal does not stand."""
_KNOWN = ("stainless steel", "cast iron", "brass", "zinc", "aluminium", "aluminum", "nickel", "steel")


class Pour(NamedTuple):
    """How hot metal is poured: in a step or as the metal's own property, and which metals it may be."""

    given: Given
    materials: tuple[str, ...]
    """Those of which the liquidus is told."""
    procedure: Procedure | None
    step: Step | None
    named: bool
    """The value is taken over from elsewhere, where it is told too."""
    owner_id: str


def chosen_at(place: Place, outer: Limit, dimension: str) -> frozenset[str]:
    """What the row of a table, or the `for`, chooses of a dimension; empty where it chooses nothing."""
    found: set[str] = set()
    for number, row in enumerate(place.rows):
        if number < len(outer.by) and outer.by[number].name == dimension:
            found.add(str(row))
    conditions: list[Mapping[Text, tuple[Text, ...]]] = [
        choice for around in place.up() for choice in around.entry.for_
    ]
    for choice in conditions:
        found.update(map(str, choice.get(Text(dimension), ())))
    return frozenset(found)


def materials_at(known: FigureInputs, place: Place, outer: Limit) -> list[str]:
    """The materials in hand: those its row or its `for` names, else of the step, the procedure, the part."""
    nb = known.notebook
    told_for = chosen_at(place, outer, "material")
    if told_for:
        return [id_ for id_ in sorted(told_for) if id_ in nb.materials]
    holds = around(place)
    for work in (place.step, place.procedure):
        used = [str(use.material) for use in work.materials if use.material in nb.materials
                and can_hold_together(use.for_, holds)] if work is not None else []
        if used:
            return used
    return metals_of(known, nb.parts_of(place.procedure)) if place.procedure is not None else []


def metals_of(known: FigureInputs, parts: Iterable[str]) -> list[str]:
    """What parts are made of."""
    nb = known.notebook
    return [str(m) for part in parts if part in nb.parts for m in nb.parts[part].material if m in nb.materials]


@once
def pours(known: FigureInputs) -> tuple[Pour, ...]:
    """Every temperature at which metal with a known liquidus is poured."""
    return tuple(one for name in POURED for one in temperatures(known, name))


def temperatures(known: FigureInputs, name: str) -> Iterator[Pour]:
    """Every setting and property of this name, cell by cell, with the metals it is for."""
    for limit, place in limits_by_name(known).get(name, ()):
        if place.key == "settings" and place.procedure is not None:
            for cell, inner in _cells(known, limit, place):
                if cell.written is None:
                    continue
                given = given_here(known, cell.written, name, "procedure", place.owner_id, place.step)
                melts = tuple(m for m in materials_at(known, inner, limit) if property_of(known, m, "liquidus"))
                if given is not None and given.unit.kind == "temperature":
                    taken = any(naming.hits for naming in known.reckoning.of_value.get(id(cell.written), ()))
                    yield Pour(given, melts, place.procedure, place.step, taken, place.owner_id)
        elif place.key == "properties" and isinstance(place.owner, Material):
            given = given_of(known, (limit,), name, "material", place.owner_id)
            melts = (place.owner_id,) if property_of(known, place.owner_id, "liquidus") else ()
            if given is not None and given.unit.kind == "temperature":
                yield Pour(given, melts, None, None, False, place.owner_id)


def _cells(known: FigureInputs, limit: Limit, place: Place) -> Iterator[tuple[Limit, Place]]:
    for _, cell in limit.cells():
        yield cell, place if cell is limit else known.reckoning.place_of[id(cell)]


@once
def cast_by(known: FigureInputs) -> Mapping[str, tuple[tuple[Procedure, str], ...]]:
    """Of each part the procedures that pour it, each with the one metal it pours."""
    nb = known.notebook
    found: dict[str, dict[tuple[str, str], tuple[Procedure, str]]] = {}
    for pour in pours(known):
        own = pour.procedure
        if own is None:
            continue
        for part in nb.makes_of(own):
            own_metals = set(metals_of(known, (part,)))
            metals = [m for m in pour.materials if not own_metals or m in own_metals] or list(pour.materials)
            if part in nb.parts and len(set(metals)) == 1:
                found.setdefault(part, {})[str(own.procedure), metals[0]] = (own, metals[0])
    return {part: tuple(rows.values()) for part, rows in found.items()}


def works_of(known: FigureInputs, own: Procedure) -> Iterator[tuple[Procedure, Work]]:
    """The procedure and its steps, then the shared procedures they use, one level deep."""
    for work in (own, *all_steps(own)):
        yield own, work
    used = dict.fromkeys(str(s.use) for s in all_steps(own) if s.use is not None and s.use in known.notebook.procedures)
    for id_ in used:
        shared = known.notebook.procedures[id_]
        for work in (shared, *all_steps(shared)):
            yield shared, work


def share_in(known: FigureInputs, material: Material, element: str) -> Given | None:
    """How much of an element a metal holds, as a share."""
    written = material.composition.get(Text(element))
    given = given_here(known, written, element, "material", str(material.id)) if written is not None else None
    return given if given is not None and given.unit.kind == "ratio" else None


def main_metal(known: FigureInputs, material: Material) -> str:
    """``zinc``, ``brass``, ``stainless steel`` …: by its composition, or else its title; empty where neither says."""
    shares = {
        str(name).lower(): given.span.middle
        for name in material.composition if (given := share_in(known, material, str(name))) is not None
    }
    if shares:
        most = max(shares, key=lambda name: shares[name])
        if most == "copper" and shares.get("zinc", 0.0) >= _BRASS:
            return "brass"
        if most == "iron" and shares.get("chromium", 0.0) >= _STAINLESS:
            return "stainless steel"
        return _SPELLED.get(most, most)
    words = material.title.lower()
    named = [metal for metal in _KNOWN if metal in words]
    named += [metal for name, metal in _NAMED_FOR.items() if name in words]
    return _SPELLED.get(named[0], named[0]) if named else ""
