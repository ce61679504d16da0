"""Mixes that go off: how many pieces one covers before its pot life is over, and how many are stirred for a batch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from site_builder.figures.amounts import amount, between, both, heat
from site_builder.figures.coated import pieces_coming
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, guarded, limits_by_name, property_of, time_each
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.pot_life import mixes_for, pot_life_at
from site_builder.notebook.model.limit import Window
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import can_hold_together

POT_LIFE, ROOM = "pot life", "room temperature"
_SOURCE = "common practice; half the pot life for each 10 °C warmer, resin makers' rule of thumb"
_ENDLESS = 10**9
"""Pieces, where no order says how many: a mix is then as large as its pot life lets it be."""
_LONG = 7200
"""Seconds from which hours read better."""
_CAUTION = "A lump heats itself and goes off sooner than a thin layer, and may smoke. The maker's sheet comes first."


def mix_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of mixes: once for each procedure and each material with a pot life that it uses."""
    for material in _going_off(known):
        told = property_of(known, material, POT_LIFE)
        if told is None or told.unit.kind != "time":
            continue
        for id_ in _using(known, material):
            own = known.notebook.procedures[id_]
            each, missing = _each(known, own, told)
            if each is None:
                yield from [missing] if missing is not None else []
                continue
            found = [told.input, each.input]
            yield from guarded(partial(_said, known, id_, own, material, (told, each)), found)


def _going_off(known: FigureInputs) -> list[str]:
    return list(dict.fromkeys(
        place.owner_id for _, place in limits_by_name(known).get(POT_LIFE, ())
        if place.key == "properties" and place.owner_id in known.notebook.materials
    ))


def _using(known: FigureInputs, material: str) -> list[str]:
    """The procedures that use a mix, but for the one that makes it."""
    places = (link.place for link in known.references.used_in("material", material) if link.key == "material")
    return list(dict.fromkeys(
        place.owner_id for place in places if place.procedure is not None
        and any(use.material == material for use in place.procedure.materials)
        and all(made != material for made in place.procedure.makes)
    ))


def _each(known: FigureInputs, own: Procedure, told: Given) -> tuple[Given | None, Missing | None]:
    """Time of a piece between mixing and the end of its window, as the steps tell it."""
    id_ = str(own.procedure)
    window = next(((window, step) for step in own.steps for window in _windows(step) if window.after), None)
    if window is None:
        return None, None
    steps = _between(own, window[0], window[1])
    leaves = [(step, time.each) for step in steps for time in step.time if time.each is not None]
    if steps and len(leaves) == len(steps) and can_hold_together(*(step.for_ for step in steps)):
        given = [given_here(known, leaf, "time for one", "procedure", id_, step) for step, leaf in leaves]
        if all(one is not None for one in given):
            found = [one for one in given if one is not None]
            span = Interval(sum(one.span.low for one in found), sum(one.span.high for one in found))
            return Given(span, found[0].unit, any(one.rough for one in found), found[0].input), None
    given_whole = time_each(known, own)
    if given_whole is not None:
        given_whole = replace(given_whole, input=replace(given_whole.input, name="time for one, all of it"))
    if given_whole is not None and given_whole.span.high * 4 <= told.span.low:
        return given_whole, None
    step = steps[0] if steps else window[1]
    return None, Missing("procedure", id_, "How many pieces one mix covers before it goes off.", "time: about 20 s",
                         step.at, step)


def _windows(step: Step) -> Iterator[Window]:
    for windows in step.windows.values():
        for window in windows:
            if any("pot life" in str(cell.written) for _, cell in window.cells() if cell.written is not None):
                yield window


def _between(own: Procedure, window: Window, last: Step) -> list[Step]:
    """The steps after the one that mixes, to the one on which the window stands."""
    after = {str(moment) for moment in window.after}
    steps = list(own.steps)
    begin = next((number for number, step in enumerate(steps) if step.id is not None and str(step.id) in after), None)
    end = next((number for number, step in enumerate(steps) if step is last), None)
    if begin is None or end is None or end <= begin:
        return []
    return [step for step in steps[begin + 1:end + 1] if step.per not in ("load", "lot") or step is last]


def _said(
    known: FigureInputs, id_: str, own: Procedure, material: str, told: tuple[Given, Given]
) -> Iterator[Figure]:
    life_told, each = told
    life, room = _in_the_room(known, own, material, life_told)
    amount_each = _amount(known, own, material)
    size = amount_each.span.high if amount_each is not None else 1.0
    begun = pieces_coming(known, id_)
    count = begun[1] if begun is not None else 1
    many = count if begun is not None else _ENDLESS
    found = [mixes_for(many, size, each.span.high, end) for end in (life.low, life.high)]
    title = known.notebook.materials[material].title
    pieces = between(found[0].pieces, found[1].pieces)
    sentence = f"One mix of “{title}” covers {pieces} pieces before it goes off"
    inputs: list[Input] = [life_told.input, each.input]
    if room is not None:
        unit = "h" if life.low >= _LONG else "min"
        sentence += (f": its pot life is {amount(life, unit, 2)} in a room of "
                     f"{heat(Interval(room.span.low, room.span.high), room.is_inch)}")
        inputs.append(room.input)
    sentence += "."
    if amount_each is not None:
        full = Interval(found[0].full, found[1].full)
        metric = "kg" if full.high >= 1 else "g"
        sentence += f" It takes {both(full, metric, 'oz', amount_each.is_inch, 2)}, and what stays in the pot."
        inputs.append(amount_each.input)
    if begun is not None:
        order = known.notebook.orders[begun[0]].title
        sentence += f" For {count:,} ({order}) that is {between(found[1].mixes, found[0].mixes)} mixes."
        inputs.append(Input("pieces that come to it", f"{count:,}", "order", begun[0]))
    yield Figure("procedure", id_, sentence, tuple(inputs), "mixes by pot life", _SOURCE, _CAUTION)


def _in_the_room(known: FigureInputs, own: Procedure, material: str, told: Given) -> tuple[Interval, Given | None]:
    """The pot life in the room as the procedure allows it, where both it and the heat it is told for are known."""
    limits = known.notebook.materials[material].properties.get(Text(POT_LIFE), ())
    at = next((limit.given[Text(ROOM)] for limit in limits if Text(ROOM) in limit.given and not limit.follows), None)
    given_at = given_here(known, at, ROOM, "material", material) if at is not None else None
    room = _room(known, own)
    if given_at is None or room is None or given_at.unit.kind != "temperature" or room.unit.kind != "temperature":
        return told.span, None
    return spread(pot_life_at, told.span, given_at.span.middle, room.span), room


def _room(known: FigureInputs, work: Work) -> Given | None:
    limits = work.conditions.get(Text(ROOM), ())
    own = str(work.procedure) if isinstance(work, Procedure) else ""
    return given_of(known, limits, ROOM, "procedure", own) if limits else None


def _amount(known: FigureInputs, own: Procedure, material: str) -> Given | None:
    for use in own.materials:
        if use.material == material and use.amount is not None:
            given = given_here(known, use.amount, "amount", "procedure", str(own.procedure))
            if given is not None and given.unit.kind in ("mass per count", "mass"):
                return given
    return None
