"""Metal for a batch: what is poured and melted, what comes back, and the heat it takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, partial

from site_builder.batch.batch import Batch
from site_builder.batch.returns import HELD, MELT_LOSS
from site_builder.batch.variant import holding, works_holding
from site_builder.figures.amounts import about, amount, figure, mass, percent
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_all, given_here, given_of, guarded, property_of
from site_builder.figures.metals import Pour, cast_by, pours, works_of
from site_builder.figures.moulds import mass_of
from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.melting_heat import heat_to_melt, melting_time
from site_builder.formulas.metal_needed import MetalNeeded, casting_yield, metal_needed
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Yield
from site_builder.notebook.model.things import Machine
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import in_words, row_of

_BALANCE = "mass balance; casting yield, ASM Handbook vol. 15, Casting"
_HEAT = "heating the metal; Groover, Fundamentals of Modern Manufacturing, chapter 10"
_COLD = 20.0
_FURNACE = ("The furnace swallows more than the metal does: with gas often three quarters of the fuel and over (common "
            "practice).")
_NO_LOSS = Input(MELT_LOSS, "assumed: none, as none is told")
_CLEAN = Input("gates and scrap melted again", "assumed: all of them")
NOUGHT = Interval(0.0, 0.0)


@dataclass(frozen=True)
class Charged:
    """One casting: kilograms of the part, kilograms poured for it, gates and all, and the shares that are lost."""

    part: Interval
    each: Interval
    scrap: Interval
    loss: Interval
    rough: bool
    is_inch: bool
    inputs: tuple[Input, ...]

    @property
    def good(self) -> Interval:
        """The share of what is poured that is good castings."""
        return spread(lambda part, each, scrap: casting_yield(part * (1 - scrap), part + _gates(each, part)),
                      self.part, self.each, self.scrap)

    def needed(self, good: float | None = None, castings: float = 1.0) -> Mapping[str, Interval]:
        """Kilograms for so many good ones, or else for so many castings, by what ``MetalNeeded`` calls them."""
        @cache
        def reckoned(part: float, each: float, scrap: float, loss: float) -> MetalNeeded:
            wanted = castings * (1 - scrap) if good is None else good
            return metal_needed(wanted, part, _gates(each, part), scrap, loss)

        return {name: spread(lambda *ends, name=name: getattr(reckoned(*ends), name), self.part, self.each, self.scrap,
                             self.loss)
                for name in ("poured", "melted", "returns", "new")}


def _gates(each: float, part: float) -> float:
    """What is poured besides the part; where the figures overlap, nothing."""
    return max(each - part, 0.0)


def melting_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of melting: on the page of each casting procedure, and of each order that needs metal."""
    for part, casts in cast_by(known).items():
        for own, metal in casts:
            yield from _at_procedure(known, part, own, metal)
    for id_, batches in known.batches.items():
        for batch in batches if not isinstance(batches, Impossible) else ():
            yield from _at_order(known, id_, batch)


def charged(known: FigureInputs, part: str, own: Procedure, metal: str, chosen: dict[str, str]) -> Charged | None:
    """What one casting takes; None where the mass of the part or of its gates is not told."""
    weighs = mass_of(known, part, metal, chosen)
    if weighs is None:
        return None
    span, inputs = weighs
    scrap = _share_of(known, own, "scrap", chosen)
    loss = melt_loss(known, own, metal)
    used = _poured_each(known, own, metal, chosen)
    if used is not None:
        each = used.span
        inputs += (used.input,)
    else:
        back = _share_of(known, own, "returns", chosen)
        if back is None:
            return None
        # What goes back is told as a share of what is poured.
        each = spread(lambda kg, share: kg / (1 - share) if share < 1 else 0.0, span, back.span)
        inputs += (back.input,)
    for given in (scrap, loss):
        inputs += (given.input,) if given is not None else ()
    if loss is None:
        inputs += (_NO_LOSS,)
    return Charged(
        span, each, scrap.span if scrap is not None else NOUGHT, loss.span if loss is not None else NOUGHT,
        any(given.rough for given in (used, scrap, loss) if given is not None),
        used is not None and used.is_inch, inputs,
    )


def melt_loss(known: FigureInputs, own: Procedure, metal: str) -> Given | None:
    """The share lost as dross: a property of the metal, a setting of the work, or what the work loses that melts it."""
    told = property_of(known, metal, MELT_LOSS)
    if told is None:
        told = _set(known, own, MELT_LOSS)
    if told is not None:
        return told if told.unit.kind == "ratio" else None
    melts = {str(p.procedure) for p, work in works_of(known, own)
             if p is not own and any(name in work.settings for name in HELD)}
    for shared, work in works_of(known, own):
        if str(shared.procedure) in melts:
            given = _first(known, shared, work.yield_, "scrap", MELT_LOSS)
            if given is not None and 0 < given.span.high < 1:
                return given
    return None


def pot_of(known: FigureInputs, own: Procedure) -> Given | None:
    """How much the furnace of a procedure holds."""
    for _, work in works_of(known, own):
        for use in work.tools:
            if isinstance(known.notebook.tools.get(use.tool), Machine):
                given = property_of(known, str(use.tool), "capacity")
                if given is not None and given.unit.kind == "mass":
                    return given
    return None


def heat_of(known: FigureInputs, own: Procedure, metal: str) -> tuple[Interval, tuple[Input, ...]] | None:
    """Joules in each kilogram that is brought from the cold to the pouring temperature."""
    told = {name: property_of(known, metal, name) for name in ("liquidus", "specific heat", "latent heat")}
    liquidus, specific, latent = told.values()
    pour = _pour_of(known, own)
    if liquidus is None or specific is None or latent is None or pour is None:
        return None
    if pour.given.span.low < liquidus.span.high:
        return None  # `pour-below-liquidus` has told it
    heat = spread(
        lambda pours, melts, solid, hidden: heat_to_melt(
            1.0, cold=_COLD, melts=melts, pours=pours, solid_heat=solid, latent_heat=hidden
        ),
        pour.given.span, liquidus.span, specific.span, latent.span,
    )
    inputs = (pour.given.input, liquidus.input, specific.input, latent.input,
              Input("cold metal", f"assumed: {_COLD:g}{NO_BREAK}°C"))
    return heat, inputs


def _at_procedure(known: FigureInputs, part: str, own: Procedure, metal: str) -> Iterator[Figure | Missing | Fault]:
    id_ = str(own.procedure)
    ways = _ways_of(known, part, own)
    made = {way: one for way in ways if (one := charged(known, part, own, metal, dict(way))) is not None}
    if not made:
        if mass_of(known, part, metal, {}) is None:
            at = known.notebook.parts[part].at
            yield Missing("part", part, "How much metal a batch of it takes.", "sizes: {mass: 1.1 kg}", at)
        else:
            yield Missing("procedure", id_, "How much metal a batch takes, with its gates.",
                          f"materials: {{material: {metal}, amount: about 1.5 kg per piece}}", own.at)
    different = {(one.part, one.each, one.scrap, one.loss) for one in made.values()}
    alike = len(different) == 1 and len(made) == len(ways)
    for way, one in list(made.items())[:1] if alike else made.items():
        yield from guarded(partial(_each, known, part, own, one, "" if alike else in_words(dict(way))), one.inputs)
    heat = partial(heat_of, known, own, metal)
    told = [given.input for name in ("specific heat", "latent heat", "liquidus")
            if (given := property_of(known, metal, name)) is not None]
    yield from guarded(partial(_pot, known, own, metal, heat), told)


def _ways_of(known: FigureInputs, part: str, own: Procedure) -> tuple[tuple[tuple[str, str], ...], ...]:
    """The ways in which a casting can differ: its mass, its metal, its losses; one empty way where they never do."""
    masses = known.notebook.parts[part].sizes.get(Text("mass"), ()) if part in known.notebook.parts else ()
    volumes = known.notebook.parts[part].sizes.get(Text("volume"), ()) if part in known.notebook.parts else ()
    conditions = [row_of(limit, rows, cell) for limit in (*masses, *volumes) for rows, cell in limit.cells()]
    conditions += [entry.for_ for work in (own, *own.steps) for entry in (*work.materials, *work.yield_)]
    found = known.reckoning.ways.choices(conditions, {"part": part}, found=False)
    return tuple(tuple(way.items()) for way in found) if found is not None else ()


def _each(known: FigureInputs, part: str, own: Procedure, one: Charged, way: str) -> Iterator[Figure]:
    guards.at_least("metal with its gates", "kg", one.each.high, one.part.low, "part")
    needed = one.needed(good=1.0)
    melted = about(mass(needed["melted"], one.is_inch, 2 if one.rough else 3), one.rough)
    lead = f"{_capital(way)}: for" if way else "For"
    sentence = (f"{lead} each good “{known.notebook.parts[part].title}” {melted} "
                f"is melted; {percent(one.good)} of what is poured is good castings.")
    yield Figure("procedure", str(own.procedure), sentence, one.inputs, "casting yield", _BALANCE)


def _pot(
    known: FigureInputs, own: Procedure, metal: str, heat: partial[tuple[Interval, tuple[Input, ...]] | None]
) -> Iterator[Figure]:
    found, pot = heat(), pot_of(known, own)
    if found is None or pot is None:
        return
    joules, inputs = found
    whole = Interval(joules.low * pot.span.high, joules.high * pot.span.high)
    title = known.notebook.materials[metal].title
    sentence = (f"A full pot of {mass(Interval.around(pot.span.high, 0), pot.is_inch)} of “{title}” takes up "
                f"{about(amount(whole, 'kWh', 2), True)} until it can be poured.")
    inputs += (pot.input,)
    power = _power_of(known, own)
    if power is not None:
        shortest = melting_time(whole.low, power.span.high)
        sentence += (f" Did all the power of the furnace, {power.input.written}, go into the metal, that would take "
                     f"{figure(shortest / 60, 2)}{NO_BREAK}min.")
        inputs += (power.input,)
    yield Figure("procedure", str(own.procedure), sentence, inputs, "heat to melt", _HEAT, _FURNACE)


def _at_order(known: FigureInputs, id_: str, batch: Batch) -> Iterator[Figure | Missing | Fault]:
    order = known.notebook.orders[id_]
    casts = cast_by(known)
    for made in batch.parts:
        for spent in made.legs:
            metal = next((m for own, m in casts.get(made.part, ()) if str(own.procedure) == spent.leg.id), None)
            if metal is None:
                continue
            chosen = {"part": made.part, **batch.wanted.chosen}
            one = charged(known, made.part, spent.leg.procedure, metal, chosen)
            if one is None:
                continue
            pieces = order.pieces
            at = pieces.at if pieces is not None else order.at
            ordered = Input("pieces ordered", str(pieces), "order", id_, at=at)
            yield from guarded(
                partial(_metal, known, batch, id_, made.part, spent.leg.procedure, metal, float(spent.pieces), one,
                        ordered),
                one.inputs,
            )


def _metal(
    known: FigureInputs, batch: Batch, id_: str, part: str, own: Procedure, metal: str, castings: float, one: Charged,
    ordered: Input,
) -> Iterator[Figure]:
    """``castings`` are poured, the bad ones among them."""
    needed = one.needed(castings=castings)
    title, metal_title = known.notebook.parts[part].title, known.notebook.materials[metal].title
    digits = 2 if one.rough else 3
    kilograms = {name: about(mass(span, one.is_inch, digits), one.rough) for name, span in needed.items()}
    way = f", {in_words(batch.wanted.way)}" if batch.wanted.way else ""
    sentence = (f"“{title}”{way}: {castings:,.0f} castings, {kilograms['poured']} of “{metal_title}” poured and "
                f"{kilograms['melted']} melted. {_capital(kilograms['returns'])} comes back as gates and scrap, so "
                f"that {kilograms['new']} of it is new metal.")
    inputs = (ordered, *one.inputs, Input("castings", f"{castings:,.0f}", "procedure", str(own.procedure)), _CLEAN)
    pot = pot_of(known, own)
    if pot is not None and pot.span.high > 0:
        pots = Interval(needed["melted"].low / pot.span.high, needed["melted"].high / pot.span.high)
        sentence += f" The pot is filled {_whole(pots)}."
        inputs += (pot.input,)
    heat = heat_of(known, own, metal)
    if heat is not None:
        joules = Interval(heat[0].low * needed["melted"].low, heat[0].high * needed["melted"].high)
        sentence += f" It takes up {about(amount(joules, 'kWh', 2), True)}."
        inputs += heat[1]
    yield Figure("order", id_, sentence, inputs, "metal for a batch", _BALANCE, _FURNACE if heat is not None else "")


def _poured_each(known: FigureInputs, own: Procedure, metal: str, chosen: Mapping[str, str]) -> Given | None:
    """Kilograms of the metal used for each piece, gates and all, about all that may hold."""
    for ring in works_holding(known.notebook, own, chosen)[:2]:
        told = [use.amount for work in ring for use in holding(work.materials, chosen)
                if use.material == metal and use.amount is not None]
        given = given_all(known, told, "metal with its gates", "procedure", str(own.procedure))
        if given is not None and given.unit.kind == "mass per count":
            return given
    return None


def _set(known: FigureInputs, own: Procedure, name: str) -> Given | None:
    """A setting of the work or of a step of it, or of the shared work it uses."""
    for procedure, work in works_of(known, own):
        limits = work.settings.get(Text(name), ())
        given = given_of(known, limits, name, "procedure", str(procedure.procedure)) if limits else None
        if given is not None:
            return given
    return None


def _share_of(known: FigureInputs, own: Procedure, key: str, chosen: Mapping[str, str]) -> Given | None:
    told = [leaf for one in holding(own.yield_, chosen) if (leaf := getattr(one, key)) is not None]
    given = given_all(known, told, key, "procedure", str(own.procedure))
    return given if given is not None and given.unit.kind == "ratio" else None


def _first(known: FigureInputs, own: Procedure, yields: tuple[Yield, ...], key: str, name: str) -> Given | None:
    for told in yields:
        leaf = getattr(told, key)
        given = given_here(known, leaf, name, "procedure", str(own.procedure)) if leaf is not None else None
        if given is not None and given.unit.kind == "ratio":
            return given
    return None


def _pour_of(known: FigureInputs, own: Procedure) -> Pour | None:
    return next((pour for pour in pours(known) if pour.procedure is own), None)


def _power_of(known: FigureInputs, own: Procedure) -> Given | None:
    """The power of what holds the melt."""
    for _, work in works_of(known, own):
        for use in work.tools:
            id_ = str(use.tool)
            if id_ in known.notebook.tools and property_of(known, id_, "capacity") is not None:
                given = property_of(known, id_, "power")
                if given is not None and given.unit.kind == "power":
                    return given
    return None


def _whole(pots: Interval) -> str:
    low, high = (-int(-one // 1) for one in (pots.low, pots.high))
    if high == 1:
        return "once"
    return f"{low} times" if low == high else f"{low} to {high} times"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


