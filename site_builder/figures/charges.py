"""Charge make-up: how much ingot, returns and addition give the composition that is wanted."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from site_builder.figures.amounts import figure, mass, percent
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, guarded, property_of
from site_builder.figures.melting import pot_of
from site_builder.figures.metals import cast_by, share_in, works_of
from site_builder.formulas.charge import blend, make_up
from site_builder.formulas.interval import Interval
from site_builder.notebook.model.procedure import Procedure

RETURNS = "returns in the pot"
_SOURCE = "mass balance, total mass and mass of the element"
_CAUTION = "What is in the returns is only known when they have been analysed; so is what burns off."


class Addition(NamedTuple):
    """What raises an element: its share of it, and who says so."""

    share: float
    words: str
    input: Input


def charge_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of the charge, once for each metal, on its page."""
    done: set[str] = set()
    for casts in cast_by(known).values():
        for own, metal in casts:
            pot, back = pot_of(known, own), property_of(known, metal, RETURNS)
            if metal in done or pot is None or back is None or back.unit.kind != "ratio":
                continue
            done.add(metal)
            for element in known.notebook.materials[metal].composition:
                held = property_of(known, metal, f"{element} of the returns")
                wanted = share_in(known, known.notebook.materials[metal], str(element))
                if held is not None and wanted is not None and held.unit.kind == "ratio":
                    yield from guarded(partial(_made_up, known, own, metal, str(element), pot, back, held, wanted),
                                       [held.input, wanted.input, back.input, pot.input])


def _made_up(
    known: FigureInputs, own: Procedure, metal: str, element: str, pot: Given, back: Given, held: Given, wanted: Given
) -> Iterator[Figure]:
    total, returns = pot.span.high, pot.span.high * back.span.high
    ingot = property_of(known, metal, f"{element} of the ingot") or wanted
    mixed = blend([(total - returns, ingot.span.middle), (returns, held.span.middle)])
    inputs: tuple[Input, ...] = (pot.input, back.input, held.input, ingot.input, wanted.input)
    title = known.notebook.materials[metal].title
    start = f"A pot of {_kilograms(total, pot)} with {_kilograms(returns, pot)} of returns"
    without = f"{percent(Interval.around(mixed, 0), 3)} {element}"
    inside = wanted.span.low <= mixed <= wanted.span.high
    rule = "and that is within what" if inside else "and that is outside what"
    sentence = f"{start} comes to {without} without any addition, {rule} “{title}” may hold."
    adds = _addition(known, own, metal, element, wanted)
    # An ingot as poor as the returns, or richer than wanted, is only mixed.
    if mixed < wanted.span.middle and adds.share > wanted.span.middle > 0:
        found = make_up(total, wanted.span.middle, ingot=ingot.span.middle, returns=held.span.middle,
                        returns_mass=returns, addition=adds.share)
        sentence += (f" For {percent(Interval.around(wanted.span.middle, 0), 3)}: {_kilograms(found.ingot, pot)} of "
                     f"ingot, {_kilograms(found.returns, pot)} of returns and {_kilograms(found.addition, pot)} of "
                     f"{adds.words}.")
        inputs += (adds.input,)
    yield Figure("material", metal, sentence, inputs, "charge make-up", _SOURCE, _CAUTION)


def _addition(known: FigureInputs, own: Procedure, metal: str, element: str, wanted: Given) -> Addition:
    """A material of the work that is richer in it, or the element itself."""
    nb = known.notebook
    for _, work in works_of(known, own):
        for use in work.materials:
            if use.material in nb.materials and use.material != metal:
                other = nb.materials[use.material]
                share = share_in(known, other, element)
                if share is not None and share.span.low > wanted.span.high:
                    return Addition(share.span.middle, f"“{other.title}”", share.input)
    return Addition(1.0, f"pure {element}", Input("addition", f"assumed: pure {element}"))


def _kilograms(kilograms: float, pot: Given) -> str:
    if kilograms < 1:
        return f"{figure(kilograms * 1000, 2)}{NO_BREAK}g"
    return mass(Interval.around(kilograms, 0), pot.is_inch)
