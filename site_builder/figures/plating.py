"""Plating: what the current lays down, what was ordered and measured, how much metal a batch carries."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.figures.amounts import about, between, both, mass
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.coated import area_of, pieces_coming
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, guarded, limits_by_name
from site_builder.figures.plated import plated_figures
from site_builder.figures.plating_orders import Ordered, classes, ordered
from site_builder.formulas.deposition import metal_on, plating_time, thickness_deposited
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.plating_metals import PlatingMetal, plating_metal
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.tree import Text

CURRENT, TIME, EFFICIENCY, METAL = "current density", "time in the bath", "current efficiency", "metal"
AREAS = ("plated area", "area")
_VALENCES = {"I": 1, "II": 2, "III": 3, "IV": 4, "VI": 6}
_FARADAY = "Faraday's law, CODATA 2018; MISUMI tutorial 166, table 1"
_BATHS = ("It is the average over the whole area: edges get more and hollows less. Baths, their heat and their waste "
          "are for who is licensed for them.")


def plating_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of plating: metal on the pieces, current in the bath, thickness as measured."""
    yield from (Fault(at, str(found)) for _, _, found, at in classes(known) if isinstance(found, Impossible))
    by_work: dict[str, list[Ordered]] = {}
    for one in ordered(known):
        by_work.setdefault(str(one.procedure.procedure), []).append(one)
    for id_, coats in by_work.items():
        yield from _carried(known, id_, coats)
    yield from _baths(known)
    yield from plated_figures(known)


# ---------------------------------------------------------------------- metal on the pieces


def _carried(known: FigureInputs, id_: str, coats: list[Ordered]) -> Iterator[Figure | Missing | Fault]:
    own = coats[0].procedure
    area = area_of(known, own, AREAS)
    if area is None:
        part = next((p for p in known.notebook.parts_of(own) if p in known.notebook.parts), None)
        if part is not None:
            yield Missing("procedure", id_, "How many grams of metal a piece and the batch carry.",
                          "sizes: {plated area: 180 cm²}", known.notebook.parts[part].at)
        return
    inputs = [area.input, *(one.given.input for one in coats)]
    yield from guarded(partial(_carries, known, id_, coats, area, inputs), inputs)


def _carries(
    known: FigureInputs, id_: str, coats: list[Ordered], area: Given, inputs: list[Input]
) -> Iterator[Figure]:
    weights = [spread(metal_on, area.span, one.given.span, _density(one.metal)) for one in coats]
    total = Interval(sum(one.low for one in weights), sum(one.high for one in weights))
    is_inch = area.is_inch
    named = [f"{mass(weight, is_inch, 2)} of {one.metal}" for one, weight in zip(coats, weights, strict=True)]
    sentence = f"A piece carries {about(listed(named), area.rough)}"
    sentence += f", {mass(total, is_inch, 2)} together." if len(coats) > 1 else "."
    begun = pieces_coming(known, id_)
    if begun is not None:
        order, count = begun
        batch = Interval(total.low * count, total.high * count)
        title = known.notebook.orders[order].title
        sentence += f" For {count:,} ({title}) that is {mass(batch, is_inch, 2)} of metal."
        inputs = [*inputs, Input("pieces that come to it", f"{count:,}", "order", order)]
    sentence += " A lot that gains less than the least is thin somewhere; one that gains enough may still be."
    yield Figure("procedure", id_, sentence, tuple(inputs), "weight of a coating", "density of the metals as MISUMI "
                 "tables them", "Weighed before and after, dry and clean. What was ordered is a least thickness, and "
                 "not the average.", coats[0].place.step)


def _density(metal: str) -> float:
    valence = {"gold": 1, "copper": 2, "tin": 2, "chromium": 6, "palladium": 2, "rhodium": 2}.get(metal)
    return plating_metal(metal, valence).density


# ---------------------------------------------------------------------- current in the bath


def _baths(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    for limit, place in limits_by_name(known).get(CURRENT, ()):
        own = place.procedure
        if own is None or place.key != "settings" or limit.written is None:
            continue
        current = given_here(known, limit.written, CURRENT, "procedure", place.owner_id, place.step)
        if current is None or current.unit.kind != "current density":
            continue
        work = place.step or own
        time, efficiency = (_setting(known, work.settings.get(Text(name), ()), name, kind, place)
                            for name, kind in ((TIME, "time"), (EFFICIENCY, "ratio")))
        written = next((one.written for one in work.settings.get(Text(METAL), ()) if one.written is not None), None)
        lines = [line for told, line in ((time, f"{TIME}: 20 min"), (efficiency, f"{EFFICIENCY}: 95 %"),
                                         (written, f"{METAL}: nickel")) if told is None]
        if time is None or efficiency is None or written is None:
            yield Missing("procedure", place.owner_id, "How thick a coat this current lays down.",
                          "settings: {" + ", ".join(lines) + "}", limit.at, place.step)
            continue
        metal = Input(METAL, str(written), "procedure", place.owner_id, place.step, written.at)
        inputs = (metal, current.input, time.input, efficiency.input)
        yield from guarded(partial(_laid_down, known, (current, time, efficiency), inputs, place), inputs)


def _setting(known: FigureInputs, limits: tuple[Limit, ...], name: str, kind: str, place: Place) -> Given | None:
    found = given_of(known, limits, name, "procedure", place.owner_id, step=place.step)
    return found if found is not None and found.unit.kind == kind else None


def read_metal(text: str) -> PlatingMetal:
    """``nickel``, ``gold III``. Raises ``Impossible`` for a metal or valence that is not tabled."""
    name, _, valence = text.partition(" ")
    return plating_metal(name.lower(), _VALENCES.get(valence.strip("()").upper()))


def _laid_down(
    known: FigureInputs, told: tuple[Given, Given, Given], inputs: tuple[Input, ...], place: Place
) -> Iterator[Figure]:
    current, time, efficiency = told
    metal = read_metal(inputs[0].written)
    laid = spread(lambda a, t, share: thickness_deposited(a, t, metal, share), current.span, time.span, efficiency.span)
    sentence = (f"This current lays down {both(laid, 'µm', 'mil', current.is_inch)} of {metal.name} (valence "
                f"{metal.valence}) on average.")
    asked = next((one for one in ordered(known) if one.metal == metal.name and one.place.owner is place.owner), None)
    if asked is not None:
        inputs = (*inputs, asked.given.input)
        seconds = spread(lambda a, share: plating_time(asked.given.span.low, a, metal, share), current.span,
                         efficiency.span)
        least = asked.given.span.low
        enough = "reaches" if laid.low >= least else "may not reach" if laid.high >= least else "does not reach"
        words = both(Interval(least, least), "µm", "mil", current.is_inch)
        sentence += (f" That {enough} the least that is asked for, {words}; "
                     f"for it {between(seconds.low / 60, seconds.high / 60, 2)}{NO_BREAK}min are needed.")
    yield Figure("procedure", place.owner_id, sentence, inputs, "Faraday's law", _FARADAY, _BATHS, place.step)
