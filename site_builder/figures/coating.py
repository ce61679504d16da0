"""Paint: how wet a coat is laid on, how much of it a batch takes, and how many pieces one mix covers."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from site_builder.figures.amounts import about, between, both, percent
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.coated import area_of, pieces_coming
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, guarded, limits_by_name, once, property_of
from site_builder.formulas.coating import dry_film, paint_needed, spreading_rate, wet_film
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.tree import Text

SOLIDS, WET, THINNER, LOSS = "volume solids", "wet film", "thinner", "loss"
AREAS = ("painted area", "area")
_FILM = "SSPC-PA 2 and paint makers: wet film × volume solids"
_RATE = "paint makers: 10 × per cent of solids / micrometres, less what is lost"
_SHEET = "The maker's sheet comes first. What misses the work is in the air: mask, booth and local law."


class Coat(NamedTuple):
    """A dry film that is asked for, of the one paint in hand whose solids are told."""

    name: str
    dry: Given
    material: str
    solids: Given
    thinner: Given | None
    procedure: Procedure
    place: Place

    @property
    def wet(self) -> Interval:
        """Metres to lay on. Raises ``Impossible``."""
        return spread(wet_film, self.dry.span, self.solids.span, self._thinned)

    def leaves(self, wet: Interval) -> Interval:
        """Metres of dry film that so much wet leaves. Raises ``Impossible``."""
        return spread(dry_film, wet, self.solids.span, self._thinned)

    @property
    def _thinned(self) -> Interval:
        return self.thinner.span if self.thinner is not None else Interval(0, 0)


@once
def coats(known: FigureInputs) -> tuple[Coat, ...]:
    """Every dry film among the limits of a procedure, but for sums of films."""
    return tuple(_coats(known))


def _coats(known: FigureInputs) -> Iterator[Coat]:
    for name, found in limits_by_name(known).items():
        if not name.endswith("film") or "wet" in name:
            continue
        for limit, place in found:
            own = place.procedure
            if own is None or place.key != "limits" or limit.sum:
                continue
            paints = [(use, solids) for use in _paints(place, own)
                      if (solids := property_of(known, str(use.material), SOLIDS)) is not None
                      and solids.unit.kind == "ratio"]
            dry = given_of(known, (limit,), name, "procedure", place.owner_id, step=place.step)
            if dry is None or dry.unit.kind != "length" or len(paints) != 1:
                continue
            material = str(paints[0][0].material)
            yield Coat(name, dry, material, paints[0][1], _share(known, THINNER, own, place.step, material), own,
                       place)


def _paints(place: Place, own: Procedure) -> tuple[MaterialUse, ...]:
    step = place.step
    return (*(step.materials if step is not None else ()), *own.materials)


def _share(known: FigureInputs, name: str, own: Procedure, step: Step | None, material: str) -> Given | None:
    """A share that the step sets, or else the procedure, or else the paint tells."""
    given = None
    for work in (step, own):
        limits = work.settings.get(Text(name), ()) if work is not None else ()
        if given is None and limits:
            given = given_of(known, limits, name, "procedure", str(own.procedure), step=step if work is step else None)
    given = given or property_of(known, material, name)
    return given if given is not None and given.unit.kind == "ratio" else None


def wet_set(known: FigureInputs, coat: Coat) -> Given | None:
    """The wet film that the same step sets itself."""
    step = coat.place.step
    limits: tuple[Limit, ...] = tuple(step.settings.get(Text(WET), ())) if step is not None else ()
    given = given_of(known, limits, WET, "procedure", coat.place.owner_id, step=step) if limits else None
    return given if given is not None and given.unit.kind == "length" else None


class WetOff(NamedTuple):
    """A wet film that is set, and leaves a dry one outside what is asked for."""

    coat: Coat
    wet: Given
    leaves: Interval


def wet_off(known: FigureInputs) -> Iterator[WetOff]:
    """Wet films of which no part leaves a dry film within its limits."""
    for coat in coats(known):
        wet = wet_set(known, coat)
        if wet is None:
            continue
        try:
            leaves = coat.leaves(wet.span)
        except Impossible:
            continue
        if leaves.high < coat.dry.span.low * (1 - 1e-9) or leaves.low > coat.dry.span.high * (1 + 1e-9):
            yield WetOff(coat, wet, leaves)


def coating_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of paint: each coat, and what a batch takes of each paint."""
    by_paint: dict[tuple[str, str], list[Coat]] = {}
    for coat in coats(known):
        inputs = [coat.dry.input, coat.solids.input, *([coat.thinner.input] if coat.thinner is not None else [])]
        yield from guarded(partial(_laid_on, known, coat, inputs), inputs)
        by_paint.setdefault((str(coat.procedure.procedure), coat.material), []).append(coat)
    for (id_, material), found in by_paint.items():
        yield from _taken(known, id_, material, found)


def _laid_on(known: FigureInputs, coat: Coat, inputs: list[Input]) -> Iterator[Figure]:
    is_inch = coat.dry.is_inch
    title = known.notebook.materials[coat.material].title
    rate = spread(spreading_rate, coat.dry.span, coat.solids.span)
    sentence = (f"To leave {both(coat.dry.span, 'µm', 'mil', is_inch)} of “{title}” dry, "
                f"{both(coat.wet, 'µm', 'mil', is_inch, 2)} are laid on wet. A litre covers "
                f"{between(rate.low / 1000, rate.high / 1000, 2)}{NO_BREAK}m² of it when nothing is lost.")
    wet = wet_set(known, coat)
    if wet is not None:
        sentence += f" What is set, {wet.input.written}, leaves {both(coat.leaves(wet.span), 'µm', 'mil', is_inch, 2)}."
        inputs = [*inputs, wet.input]
    yield Figure("procedure", str(coat.procedure.procedure), sentence, tuple(inputs), "wet and dry film",
                 f"{_FILM}; {_RATE}", _SHEET, coat.place.step)


def _taken(known: FigureInputs, id_: str, material: str, found: list[Coat]) -> Iterator[Figure | Missing | Fault]:
    own = found[0].procedure
    area = area_of(known, own, AREAS)
    if area is None:
        part = next((p for p in known.notebook.parts_of(own) if p in known.notebook.parts), None)
        if part is not None:
            title = known.notebook.materials[material].title
            yield Missing("procedure", id_, f"How many litres of “{title}” the batch takes.",
                          "sizes: {painted area: 800 cm²}", known.notebook.parts[part].at)
        return
    # Of several coats the one that loses most counts for all: paint for a batch is not to run short.
    losses = [loss for coat in found if (loss := _share(known, LOSS, own, coat.place.step, material)) is not None]
    loss = max(losses, key=lambda one: one.span.high, default=None)
    inputs = [area.input, *(coat.dry.input for coat in found), found[0].solids.input]
    inputs += [loss.input] if loss is not None else [Input(LOSS, "assumed: nothing is lost")]
    yield from guarded(partial(_batch, known, id_, material, found, (area, loss), inputs), inputs)


def _batch(
    known: FigureInputs,
    id_: str,
    material: str,
    found: list[Coat],
    told: tuple[Given, Given | None],
    inputs: list[Input],
) -> Iterator[Figure]:
    area, loss = told
    lost = loss.span if loss is not None else Interval(0, 0)
    each = [spread(paint_needed, area.span, coat.dry.span, coat.solids.span, lost) for coat in found]
    total = Interval(sum(one.low for one in each), sum(one.high for one in each))
    title = known.notebook.materials[material].title
    in_coats = "one coat" if len(found) == 1 else f"{len(found)} coats"
    sentence = f"A piece takes {_volume(total, area)} of “{title}” in {in_coats}"
    sentence += "." if loss is not None else ", if nothing misses it."
    used = _amount(known, found[0].procedure, material)
    density = property_of(known, material, "density")
    if used is not None and density is not None and density.unit.kind == "density" and loss is None:
        taken = spread(lambda m, d: m / d, used.span, density.span)
        if taken.low > total.high:
            misses = Interval(1 - total.high / taken.low, 1 - total.low / taken.high)
            sentence += (f" What is told, {used.input.written}, is {_volume(taken, area)}: {percent(misses)} of it "
                         "miss the piece or stay in pot and gun.")
            inputs = [*inputs, used.input, density.input]
            total = taken
    begun = pieces_coming(known, id_)
    if begun is not None:
        order, count = begun
        litres = between(total.low * count * 1000, total.high * count * 1000, 2)
        sentence += f" For {count:,} ({known.notebook.orders[order].title}) that is {litres}{NO_BREAK}L."
        inputs = [*inputs, Input("pieces that come to it", f"{count:,}", "order", order)]
    yield Figure("procedure", id_, sentence, tuple(inputs), "paint for an area", _RATE, _SHEET)


def _volume(span: Interval, area: Given) -> str:
    return about(both(span, "mL", "fl oz", area.is_inch, 2), area.rough)


def _amount(known: FigureInputs, own: Procedure, material: str) -> Given | None:
    """Kilograms a piece, where the procedure tells so."""
    for use in own.materials:
        if use.material == material and use.amount is not None:
            given = given_here(known, use.amount, "amount", "procedure", str(own.procedure))
            if given is not None and given.unit.kind in ("mass per count", "mass"):
                return given
    return None
