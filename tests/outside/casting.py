"""Metal and mould, against data sheets, textbooks, goldsmiths' tables and worked examples."""

from __future__ import annotations

from site_builder.formulas.casting_rate import casts_in, cycle_for
from site_builder.formulas.charge import addition, blend, make_up
from site_builder.formulas.interval import Interval
from site_builder.formulas.melting_heat import heat_to_melt, melting_time
from site_builder.formulas.metal_needed import casting_yield, metal_needed, part_mass
from site_builder.formulas.pouring import State, state, superheat, zinc_vapour_pressure
from site_builder.formulas.shrinkage import hot_size, mould_size, part_size, shrinkage_found
from site_builder.formulas.temperature import Scale, celsius, fahrenheit, meant_in_other_scale
from tests.outside.registry import Topic
from tests.outside.units import HOUR, INCH, KILOWATT_HOUR, MILLIMETRE, MINUTE, POUND

TOPIC = Topic("casting", "Metal and mould")
KELVIN = 273.15


@TOPIC.check(fahrenheit, "zamak5-f-c", "zamak7-f-c", "za8-f-c", "za12-f-c", "za27-f-c")
def to_fahrenheit(celsius_pair: list[float]) -> list[float]:
    return [fahrenheit(each) for each in celsius_pair]


@TOPIC.check(celsius, "zamak5-c-f", "zamak2-c-f")
def to_celsius(fahrenheit_pair: list[float]) -> list[float]:
    return [celsius(each) for each in fahrenheit_pair]


@TOPIC.check(meant_in_other_scale, "other-scale-za8", "other-scale-zamak5")
def other_scale(number: float, written: Scale, low: float, high: float) -> float | None:
    return meant_in_other_scale(number, written, Interval(low, high))


@TOPIC.check(superheat, "superheat-zamak3", "superheat-za8", "superheat-en")
def over_liquidus(pours: list[float], liquidus: float) -> list[float]:
    return [superheat(each, liquidus) for each in pours]


@TOPIC.check(state, "state-za12", "state-za8-poured", "state-zamak3")
def state_of_metal(t: float, solidus: float, liquidus: float) -> State:
    return state(t, solidus, liquidus)


@TOPIC.check(zinc_vapour_pressure, *(f"zn-vapour-{kelvin}" for kelvin in (610, 670, 750, 852, 990, 1179)))
def pascals(kelvin: float) -> float:
    return zinc_vapour_pressure(kelvin - KELVIN)


@TOPIC.check(mould_size, "rule-zinc", "rule-tables", "die-za12")
def mould_inches(part_in: float, shrinkage: float) -> float:
    return mould_size(part_in * INCH, shrinkage) / INCH


@TOPIC.check(part_size, "sample-back", "aluminium-back")
def part_inches(mould_in: float, shrinkage: float) -> float:
    return part_size(mould_in * INCH, shrinkage) / INCH


@TOPIC.check(shrinkage_found, "sample-found")
def part_over_mould(mould_in: float, part_in: float) -> float:
    return 1 / (1 + shrinkage_found(mould_in * INCH, part_in * INCH))


@TOPIC.check(shrinkage_found, "rule-found")
def share_of_part(mould_in: float, part_in: float) -> float:
    return shrinkage_found(mould_in * INCH, part_in * INCH)


@TOPIC.check(hot_size, "core-pin", "bridge")
def longer(mm: float, expansion: float, cold: float, hot: float) -> float:
    return hot_size(mm * MILLIMETRE, expansion, cold, hot) / MILLIMETRE - mm


@TOPIC.check(part_mass, "zamak3-lbin3", "za8-lbin3", "za12-lbin3", "za27-lbin3")
def pounds_of_a_cubic_inch(g_cm3: float) -> float:
    return part_mass(INCH**3, g_cm3 * 1000) / POUND


@TOPIC.check(casting_yield, "yield-70", "yield-75")
def share_good(good: float, poured: float) -> float:
    return casting_yield(good * POUND, poured * POUND)


@TOPIC.check(metal_needed, "poured-6000", "poured-600", "poured-scrap")
def pounds_poured(good: float, part_lb: float, gates_lb: float, scrap: float) -> float:
    return metal_needed(good, part_lb * POUND, gates_lb * POUND, scrap).poured / POUND


@TOPIC.check(
    addition,
    *("raise-krohn", "reduce-krohn", "reduce-stuller", "raise-stuller"),
    *("raise-esslinger", "raise-ganoksin", "raise-fdj"),
)
def to_add(bath: float, present: float, wanted: float, content: float) -> float:
    return addition(bath, present, wanted, content)


@TOPIC.check(blend, "blend-ganoksin", "blend-krohn", "blend-esslinger")
def karat(charges: list[tuple[float, float]]) -> float:
    return 24 * blend(charges)


@TOPIC.check(make_up, "makeup-krohn", "makeup-stuller")
def charge(
    total: float, wanted: float, ingot: float, returns: float, returns_mass: float, addition: float
) -> list[float]:
    made = make_up(total, wanted, ingot=ingot, returns=returns, returns_mass=returns_mass, addition=addition)
    return [made.ingot, made.returns, made.addition]


@TOPIC.check(heat_to_melt, "melt-eutectic", "melt-aluminium", "melt-bar")
def megajoules(kg: float, cold: float, melts: float, pours: float, solid: float, latent: float, liquid: float) -> float:
    heat = heat_to_melt(
        kg, cold=cold, melts=melts, pours=pours, solid_heat=solid, latent_heat=latent, liquid_heat=liquid
    )
    return heat / 1e6


@TOPIC.check(melting_time, "time-kwh", "time-heater", "time-half")
def hours_of_furnace(kwh: float, kw: float, efficiency: float) -> float:
    return melting_time(kwh * KILOWATT_HOUR, kw * 1000, efficiency) / HOUR


@TOPIC.check(casts_in, "day-by-hand", "shift-1200", "batch-2700")
def castings(hours: float, cycle_min: float, setup_min: float, at_once: int) -> int:
    return casts_in(hours * HOUR, cycle_min * MINUTE, setup_min * MINUTE, at_once)


@TOPIC.check(cycle_for, "cycle-shift", "cycle-batch", "cycle-by-hand")
def minutes_a_cycle(castings: int, hours: float, setup_min: float, at_once: int) -> float:
    return cycle_for(castings, hours * HOUR, setup_min * MINUTE, at_once) / MINUTE
