"""Moulds: how large they are cut for a wanted part, what comes out of them, and how hot they may be."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from site_builder.figures.amounts import about, amount, both, mass, percent
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_of, guarded, limits_by_name, property_of
from site_builder.figures.metals import cast_by, works_of
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.metal_needed import part_mass
from site_builder.formulas.shrinkage import mould_size, part_size
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Tooling
from site_builder.quantity import find_unit

MOULD_HEAT = ("heat of the mould", "mould heat", "mould temperature", "temperature of the mould")
FAULT_COLD = "the metal freezes before the mould is full, and a coat laid on so cold does not dry"
FAULT_HOT = "the coat burns off, the casting sticks to the iron and its thick places sink"
_MOST_SIZES = 8
_CONTRACTION = "die shrinkage as in NADCA product standards; patternmaker's contraction rule"
_TRIAL = ("A stiff mould or a core holds long sizes back, so that they shrink less. What is ground or filed off "
          "afterwards comes on top. Only a trial casting, measured cold, tells.")


class Unborne(NamedTuple):
    """A heat of the mould that its coat, or the mould itself, does not bear."""

    given: Given
    bears: Given
    thing: str
    """Id of the coating or the mould."""
    too_hot: bool
    procedure: str


def unborne(known: FigureInputs) -> Iterator[Unborne]:
    """Every side on which a mould is hotter or colder than what is on it bears."""
    for name in MOULD_HEAT:
        for limit, place in limits_by_name(known).get(name, ()):
            own = place.procedure
            if own is None:
                continue
            given = given_of(known, (limit,), name, "procedure", place.owner_id, step=place.step)
            # What is set is held against the mould by its own rule, and that is an error.
            things = _in_use(known, own, moulds=place.key != "settings")
            for thing in things if given is not None and given.unit.kind == "temperature" else ():
                bears = next((b for n in MOULD_HEAT if (b := property_of(known, thing, n)) is not None), None)
                if bears is None or given is None or bears.unit.kind != "temperature":
                    continue
                if given.span.low < bears.span.low:
                    yield Unborne(given, bears, thing, False, place.owner_id)
                if given.span.high > bears.span.high:
                    yield Unborne(given, bears, thing, True, place.owner_id)


def mould_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of moulds: on the page of each cast part, and of the mould where it tells its own sizes."""
    for part, casts in cast_by(known).items():
        metals = dict.fromkeys(metal for _, metal in casts)
        for metal in metals:
            shrinkage = property_of(known, metal, "shrinkage")
            density = property_of(known, metal, "density")
            if shrinkage is not None and shrinkage.unit.kind == "ratio":
                sizes = list(_sizes(known, part))[:_MOST_SIZES]
                inputs = [shrinkage.input, *(size.input for size in sizes)]
                if sizes:
                    yield from guarded(partial(_cut, known, part, metal, shrinkage, sizes), inputs)
                for own in (own for own, poured in casts if poured == metal):
                    yield from _moulds_back(known, own, part, shrinkage, sizes)
            elif shrinkage is None:
                material = known.notebook.materials[metal]
                yield Missing("part", part, "How large to cut its mould.", "properties: {shrinkage: about 1.1 %}",
                              material.at)
            if density is not None and density.unit.kind == "density":
                yield from _weight(known, part, metal, density)


def mass_of(
    known: FigureInputs, part: str, metal: str, chosen: dict[str, str]
) -> tuple[Interval, tuple[Input, ...]] | None:
    """Kilograms of a part: as it is told, or of its volume in this metal."""
    told = size_of(known, part, "mass", "mass", chosen)
    if told is not None:
        return told.span, (told.input,)
    volume = size_of(known, part, "volume", "volume", chosen)
    density = property_of(known, metal, "density")
    if volume is None or density is None or density.unit.kind != "density":
        return None
    return spread(part_mass, volume.span, density.span), (volume.input, density.input)


def size_of(known: FigureInputs, part: str, name: str, kind: str, chosen: dict[str, str]) -> Given | None:
    """A size of a part by its name, where it is of this kind."""
    limits = next((found for own, found in known.notebook.parts[part].sizes.items() if own == name), ())
    given = given_of(known, limits, name, "part", part, chosen=chosen)
    return given if given is not None and given.unit.kind == kind else None


def _sizes(known: FigureInputs, part: str) -> Iterator[Given]:
    for name, limits in known.notebook.parts[part].sizes.items():
        given = given_of(known, limits, str(name), "part", part)
        if given is not None and given.unit.kind == "length":
            yield given


def _cut(known: FigureInputs, part: str, metal: str, shrinkage: Given, sizes: list[Given]) -> Iterator[Figure]:
    told = []
    for size in sizes:
        wanted = Interval.around(size.span.middle, 0)
        cut = spread(mould_size, wanted, shrinkage.span)
        told.append(f"{size.input.name} {_length(wanted, size)} is cut {_length(cut, size)}")
    title = known.notebook.materials[metal].title
    sentence = (f"In the mould, {listed(told, 'and')}: “{title}” shrinks by "
                f"{about(percent(shrinkage.span), shrinkage.rough)} of the cold size.")
    yield Figure("part", part, sentence, (shrinkage.input, *(size.input for size in sizes)), "shrinkage allowance",
                 _CONTRACTION, _TRIAL)


def _moulds_back(
    known: FigureInputs, own: Procedure, part: str, shrinkage: Given, sizes: list[Given]
) -> Iterator[Figure | Missing | Fault]:
    """What comes out of a mould that tells sizes of the same name."""
    nb = known.notebook
    used = dict.fromkeys(str(use.tool) for _, work in works_of(known, own) for use in work.tools)
    for tool in (id_ for id_ in used if isinstance(nb.tools.get(id_), Tooling)):
        for size in sizes:
            mould = property_of(known, tool, size.input.name)
            if mould is not None and mould.unit.kind == "length":
                yield from guarded(partial(_back, known, tool, part, shrinkage, size, mould),
                                   [mould.input, shrinkage.input])


def _back(known: FigureInputs, tool: str, part: str, shrinkage: Given, size: Given, mould: Given) -> Iterator[Figure]:
    comes = spread(part_size, mould.span, shrinkage.span)
    wanted = f"{_length(size.span, size)} is wanted"
    if comes.high < size.span.low:
        wanted += ": it comes out too small"
    elif comes.low > size.span.high:
        wanted += ": it comes out too large, or something is taken off afterwards"
    sentence = (f"Cut {_length(mould.span, mould)}, it gives “{known.notebook.parts[part].title}” a "
                f"{size.input.name} of {about(_length(comes, mould), shrinkage.rough)}; {wanted}.")
    yield Figure("tool", tool, sentence, (mould.input, shrinkage.input, size.input), "shrinkage allowance",
                 _CONTRACTION, _TRIAL)


def _weight(known: FigureInputs, part: str, metal: str, density: Given) -> Iterator[Figure | Missing | Fault]:
    title = known.notebook.materials[metal].title
    volume = size_of(known, part, "volume", "volume", {})
    told = size_of(known, part, "mass", "mass", {})
    if volume is not None:
        yield from guarded(partial(_weighs, part, title, density, volume, told), [volume.input, density.input])
    elif told is not None and density.span.low > 0 and told.span.low > 0:
        metal_volume = Interval(told.span.low / density.span.high, told.span.high / density.span.low)
        sentence = (f"Its {mass(told.span, told.is_inch)} of “{title}” fill "
                    f"{both(metal_volume, 'cm³', 'in³', told.is_inch)}: so much water it pushes aside.")
        yield Figure("part", part, sentence, (told.input, density.input), "mass from volume", "definition of density")


def _weighs(part: str, title: str, density: Given, volume: Given, told: Given | None) -> Iterator[Figure]:
    weighs = spread(part_mass, volume.span, density.span)
    rough = volume.rough or density.rough
    sentence = (f"Of {about(amount(volume.span, volume.unit.symbol), volume.rough)} of “{title}” it weighs "
                f"{about(mass(weighs, volume.is_inch), rough)}.")
    inputs: tuple[Input, ...] = (volume.input, density.input)
    if told is not None:
        sentence += f" The notebook tells {told.input.written}."
        inputs += (told.input,)
    yield Figure("part", part, sentence, inputs, "mass from volume", "definition of density")


def _length(span: Interval, like: Given) -> str:
    """A length in the unit of another: to the tenth of a millimetre, a hundredth on short ones."""
    unit = find_unit("in" if like.is_inch else "mm")
    factor = float(unit.factor) if unit is not None else 1.0
    low, high = span.low / factor, span.high / factor
    places = (3 if high < 10 else 2) if like.is_inch else (2 if high < 20 else 1)
    ends = [f"{one:.{places}f}".rstrip("0").rstrip(".") for one in (low, high)]
    words = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    return f"{words}{NO_BREAK}{'in' if like.is_inch else 'mm'}"


def _in_use(known: FigureInputs, own: Procedure, *, moulds: bool) -> list[str]:
    """Coatings the work lays on, and the moulds it uses."""
    nb = known.notebook
    found: dict[str, None] = {}
    for _, work in works_of(known, own):
        found |= dict.fromkeys(str(use.material) for use in work.materials if use.material in nb.materials)
        if moulds:
            found |= dict.fromkeys(str(use.tool) for use in work.tools if isinstance(nb.tools.get(use.tool), Tooling))
    return list(found)
