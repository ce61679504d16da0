"""How far over its freezing metal is poured, and when that is too little, too much, or near the boiling of zinc."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from site_builder.batch.returns import HELD, POURED
from site_builder.figures.amounts import about, heat, warmer
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, guarded, once, property_of
from site_builder.figures.metals import Pour, main_metal, pours, temperatures
from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import ABSOLUTE_ZERO
from site_builder.formulas.interval import Interval
from site_builder.formulas.pouring import (
    HARD_FUME,
    LITTLE_SUPERHEAT,
    MUCH_SUPERHEAT,
    ZINC_BOILS,
    superheat,
    zinc_vapour_pressure,
)
from site_builder.formulas.temperature import Scale, meant_in_other_scale
from site_builder.notebook.model.procedure import Procedure

FAULT_LITTLE = "the stream folds over itself and thin places do not fill: cold shuts"
FAULT_MUCH = "the metal takes up gas and shrinks into holes, and it burns the coat off the mould"
_SOURCE = "definition, ASM Handbook vol. 15, Casting"


class Over(NamedTuple):
    """A pour with the metal whose liquidus lies lowest, and kelvin over that liquidus."""

    pour: Pour
    metal: str
    liquidus: Given
    kelvin: Interval

    @property
    def much(self) -> float:
        """Kelvin over this liquidus from which on it is much."""
        return (self.liquidus.span.low - ABSOLUTE_ZERO) * MUCH_SUPERHEAT


class Slip(NamedTuple):
    """The number as written and the scale in which it would make sense, with the °C it would then mean."""

    number: str
    scale: Scale
    celsius: float


@once
def overs(known: FigureInputs) -> tuple[Over, ...]:
    """Every pour that tells its own figure, with how far over the liquidus it is."""
    found = []
    for pour in pours(known):
        melting = [(liquidus, m) for m in pour.materials if (liquidus := property_of(known, m, "liquidus")) is not None]
        if melting and not pour.named:
            liquidus, metal = min(melting, key=lambda one: one[0].span.low)
            try:
                kelvin = Interval(superheat(pour.given.span.low, liquidus.span.low),
                                  superheat(pour.given.span.high, liquidus.span.low))
            except Impossible:
                continue
            found.append(Over(pour, metal, liquidus, kelvin))
    return tuple(found)


def too_cold(known: FigureInputs) -> Iterator[tuple[Over, Slip | None]]:
    """Pours whose cold end lies under the liquidus of every metal that may be meant."""
    for over in overs(known):
        if over.kelvin.low < 0:
            yield over, _slip(over, over.pour.given.span.low)


def astray(known: FigureInputs) -> Iterator[tuple[Over, str]]:
    """Pours over the liquidus by too little or too much, with which of the two: ``little``, ``much``."""
    for over in overs(known):
        if 0 <= over.kelvin.low < LITTLE_SUPERHEAT:
            yield over, "little"
        if over.kelvin.high > over.much and over.kelvin.low >= 0:
            yield over, "much"


def slip_of(over: Over) -> Slip | None:
    """Whether the hot end would make sense in the other scale."""
    return _slip(over, over.pour.given.span.high)


def near_boiling(known: FigureInputs) -> Iterator[Pour]:
    """Zinc alloys kept or poured so hot that zinc strives out hard."""
    nb = known.notebook
    for name in HELD:
        for pour in temperatures(known, name):
            zincs = [m for m in pour.materials if main_metal(known, nb.materials[m]) == "zinc"]
            if not pour.named and zincs and len(zincs) == len(pour.materials) and fumes_hard(pour.given.span.high):
                yield pour


def fumes_hard(celsius: float) -> bool:
    """Whether zinc at this heat strives out with more than a hundredth of the pressure of the air."""
    return celsius >= ZINC_BOILS or (celsius > 25 and zinc_vapour_pressure(celsius) >= HARD_FUME)


def pouring_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of pouring."""
    for over in overs(known):
        own = over.pour.procedure
        if own is not None and over.kelvin.low >= 0:
            yield _figure(known, over, own)
    for pour in pours(known):
        inputs = [pour.given.input]
        yield from guarded(partial(_checked, pour), inputs)
    yield from _missing(known)


def _figure(known: FigureInputs, over: Over, own: Procedure) -> Figure:
    given = over.pour.given
    title = known.notebook.materials[over.metal].title
    sentence = (f"At {about(heat(given.span, given.is_inch), given.rough)} “{title}” is "
                f"{warmer(over.kelvin, given.is_inch)} over its liquidus.")
    caution = ""
    if main_metal(known, known.notebook.materials[over.metal]) == "zinc":
        room = Interval.around(ZINC_BOILS - given.span.high, 0)
        sentence += f" Zinc boils {warmer(room, given.is_inch)} higher, and smokes white long before."
        caution = "Fume is judged by measuring the air, not by a figure here. White smoke: step back, extraction on."
    return Figure("procedure", str(own.procedure), sentence, (given.input, over.liquidus.input), "superheat",
                  _SOURCE, caution, over.pour.step)


def _checked(pour: Pour) -> tuple[Figure, ...]:
    """Nothing to tell; a temperature that cannot be is a fault."""
    superheat(pour.given.span.low, 0.0)
    return ()


def _slip(over: Over, figure: float) -> Slip | None:
    unit = over.pour.given.unit
    written: Scale | None = "°C" if unit.symbol == "°C" else "°F" if unit.symbol == "°F" else None
    if written is None:
        return None
    number = (figure - float(unit.offset)) / float(unit.factor)
    low = over.liquidus.span.high
    meant = meant_in_other_scale(number, written, Interval(low + LITTLE_SUPERHEAT, low + over.much))
    return None if meant is None else Slip(f"{number:g}", "°F" if written == "°C" else "°C", meant)


def _missing(known: FigureInputs) -> Iterator[Missing]:
    """Procedures that pour and do not say how hot, or whose metal does not say where it freezes."""
    nb = known.notebook
    telling = {str(pour.procedure.procedure) for pour in pours(known) if pour.procedure is not None}
    melts = {id_ for id_ in nb.materials if property_of(known, id_, "liquidus") is not None}
    for id_, own in nb.procedures.items():
        metals = [str(use.material) for use in own.materials if use.material in melts]
        if metals and id_ not in telling and own.title.lower().startswith(("cast ", "pour ")):
            yield Missing("procedure", id_, "How far over its freezing the metal is poured.",
                          "settings: {casting temperature: aim 505 °C; min 490; max 520}", own.at)
    asked: set[str] = set()
    for name in POURED:
        for pour in temperatures(known, name):
            metal = pour.owner_id if pour.procedure is None else ""
            if metal and not pour.materials and metal not in asked:
                asked.add(metal)
                yield Missing("material", metal, "How far over its freezing it is poured.",
                              "properties: {solidus: 375 °C, liquidus: 404 °C}", nb.materials[metal].at)
