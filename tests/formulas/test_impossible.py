"""Figures that cannot be: one kind of error, naming the figure and its unit."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest

from site_builder.formulas.blanks import blank_of_area, blank_of_cap, blank_of_cone, blank_of_cup, blank_of_profile
from site_builder.formulas.casting_rate import casts_in, cycle_for
from site_builder.formulas.charge import addition, blend, make_up
from site_builder.formulas.coating import dry_film, paint_needed, spreading_rate, wet_film
from site_builder.formulas.deposition import (
    charge_equivalent,
    mass_deposited,
    metal_on,
    plating_time,
    thickness_deposited,
    thickness_from_gain,
)
from site_builder.formulas.errors import Impossible
from site_builder.formulas.grits import Grit, coarse_steps, grain_size, grit, nearest_grit
from site_builder.formulas.interval import Interval
from site_builder.formulas.melting_heat import heat_to_melt, melting_time
from site_builder.formulas.metal_needed import casting_yield, metal_needed, part_mass
from site_builder.formulas.plating_classes import plating_class
from site_builder.formulas.plating_metals import PlatingMetal, plating_metal
from site_builder.formulas.pot_life import mixes_for, parts_of, pot_life_at
from site_builder.formulas.pouring import state, superheat, zinc_vapour_pressure
from site_builder.formulas.profile import Arc, Line, circle_through, surface_area
from site_builder.formulas.recoat import good_finishes, open_times, working_times
from site_builder.formulas.reductions import anneals_due, drawing_ratio, passes, reduction, total_reduction
from site_builder.formulas.sheet_cutting import discs_from_sheet, staggered_rows, straight_rows
from site_builder.formulas.shrinkage import hot_size, mould_size, part_size, shrinkage_found
from site_builder.formulas.speed_bands import speed_band
from site_builder.formulas.spinning_wall import sheared_wall, sheet_for, steepest
from site_builder.formulas.surface_speed import belt_speed, diameter_for, over_rating, surface_speed, turns_for
from site_builder.formulas.temperature import celsius, fahrenheit, meant_in_other_scale

NICKEL = plating_metal("nickel")
HOURS = working_times(8 * 3600, 17 * 3600, 2)


def melt(**changed: float) -> float:
    figures = {"cold": 20.0, "melts": 404.0, "pours": 460.0, "solid_heat": 435.0, "latent_heat": 112e3} | changed
    return heat_to_melt(1.0, **figures)


def charge(**changed: float) -> object:
    return make_up(
        100, **{"wanted": 0.11, "ingot": 0.11, "returns": 0.10, "returns_mass": 40, "addition": 0.5} | changed
    )


CASES: list[tuple[str, str, Callable[[], object]]] = [
    # temperatures under absolute zero
    ("temperature", "°C", lambda: fahrenheit(-274)),
    ("temperature", "°C", lambda: celsius(-460)),
    ("temperature", "°C", lambda: meant_in_other_scale(-300, "°C", Interval(400, 500))),
    ("liquidus", "°C", lambda: superheat(450, -300)),
    ("temperature", "°C", lambda: superheat(-300, 404)),
    ("liquidus", "°C", lambda: state(400, 404, 375)),
    ("temperature", "°C", lambda: zinc_vapour_pressure(950)),
    ("hot", "°C", lambda: hot_size(0.1, 11e-6, 20, -274)),
    ("room", "°C", lambda: pot_life_at(300, 20, -274)),
    # sizes of nothing and less
    ("part size", "m", lambda: mould_size(-0.1, 0.01)),
    ("mould size", "m", lambda: part_size(0, 0.01)),
    ("shrinkage", "share", lambda: mould_size(0.1, -0.01)),
    ("mould size", "m", lambda: shrinkage_found(0.1, 0.11)),
    ("expansion", "1/K", lambda: hot_size(0.1, -11e-6, 20, 200)),
    ("volume", "m³", lambda: part_mass(0, 6300)),
    ("density", "kg/m³", lambda: part_mass(1e-4, -6300)),
    ("diameter", "m", lambda: surface_speed(-0.25, 47)),
    ("diameter", "m", lambda: turns_for(30, 0)),
    ("area", "m²", lambda: blank_of_area(0)),
    ("diameter", "m", lambda: blank_of_cup(0, 0.1)),
    ("height", "m", lambda: blank_of_cup(0.1, -0.1)),
    ("flange", "m", lambda: blank_of_cup(0.1, 0.1, flange=0.09)),
    ("trim", "m", lambda: blank_of_cup(0.1, 0.1, trim=-0.001)),
    ("mouth", "m", lambda: blank_of_cone(0, 0.1)),
    ("bottom", "m", lambda: blank_of_cone(0.1, 0.1, -0.01)),
    ("height", "m", lambda: blank_of_cap(0.1, 0)),
    ("trim", "m", lambda: blank_of_profile((0, 0), [Line((1, 0))], trim=-1)),
    ("radius of the profile", "m", lambda: surface_area((0, 0), [Line((-1, 0))])),
    ("arc", "m", lambda: surface_area((1, -1), [Arc((-0.5, 0), (1, 1))])),
    ("arc", "m", lambda: circle_through((0, 0), (1, 1), (2, 2))),
    ("arc", "m", lambda: circle_through((0, 0), (0, 0), (2, 2))),
    ("sheet", "m", lambda: sheared_wall(0, 30)),
    ("half angle", "°", lambda: sheared_wall(0.001, 0)),
    ("half angle", "°", lambda: sheet_for(0.001, 91)),
    ("sheet", "m", lambda: steepest(0.001, 0.002)),
    ("disc", "m", lambda: straight_rows(1, 1, 0)),
    ("gap", "m", lambda: staggered_rows(1, 1, 0.1, -0.01)),
    ("length", "m", lambda: discs_from_sheet(0, 1, 0.1)),
    ("grain size", "m", lambda: nearest_grit(0, "P")),
    ("dry film", "m", lambda: spreading_rate(0, 0.5)),
    ("wet film", "m", lambda: dry_film(-1e-6, 0.5)),
    ("thickness", "m", lambda: plating_time(-1e-6, 100, NICKEL)),
    ("area", "m²", lambda: thickness_from_gain(0.001, 0, 8910)),
    ("area", "m²", lambda: metal_on(-1, 1e-5, 8910)),
    ("area", "m²", lambda: paint_needed(-1, 25e-6, 0.5)),
    # speeds, currents, power and time of nothing
    ("turning speed", "rev/s", lambda: surface_speed(0.25, 0)),
    ("surface speed", "m/s", lambda: diameter_for(0, 47)),
    ("turning speed", "rev/s", lambda: belt_speed(0.25, -1)),
    ("slip", "share", lambda: belt_speed(0.25, 47, 1)),
    ("rated speed", "as the running speed", lambda: over_rating(30, 0)),
    ("running speed", "as the rated speed", lambda: over_rating(-30, 30)),
    ("current density", "A/m²", lambda: plating_time(1e-5, 0, NICKEL)),
    ("current density", "A/m²", lambda: thickness_deposited(-100, 60, NICKEL)),
    ("current", "A", lambda: mass_deposited(-1, 60, NICKEL)),
    ("time", "s", lambda: mass_deposited(1, -60, NICKEL)),
    ("power", "W", lambda: melting_time(1e6, 0)),
    ("cycle", "s", lambda: casts_in(28800, 0)),
    ("working time", "s", lambda: casts_in(-1, 60)),
    ("working time left after the setup", "s", lambda: cycle_for(50, 3600, 3600)),
    ("pot life", "s", lambda: pot_life_at(0, 20, 25)),
    ("halving", "K", lambda: pot_life_at(300, 20, 25, 0)),
    ("pot life", "s", lambda: mixes_for(20, 0.05, 400, 300)),
    ("largest mix", "as the amount", lambda: mixes_for(20, 0.05, 60, 300, left=0.02, most=0.06)),
    # shares over all, and yields over 100 %
    ("poured metal", "kg", lambda: casting_yield(110, 100)),
    ("scrap", "share", lambda: metal_needed(100, 0.4, scrap=1.0)),
    ("melt loss", "share", lambda: metal_needed(100, 0.4, melt_loss=-0.01)),
    ("returns kept", "share", lambda: metal_needed(100, 0.4, kept=1.01)),
    ("efficiency", "share", lambda: mass_deposited(1, 60, NICKEL, 1.05)),
    ("efficiency", "share", lambda: melting_time(1e6, 1e3, 0)),
    ("volume solids", "share", lambda: wet_film(25e-6, 1.1)),
    ("thinner", "share", lambda: dry_film(25e-6, 0.5, -0.1)),
    ("loss", "share", lambda: spreading_rate(25e-6, 0.5, 1.0)),
    ("wanted content", "share", lambda: addition(100, 0.1, 1.1, 1)),
    ("content of the addition", "share", lambda: addition(100, 0.10, 0.12, 0.11)),
    ("content of the addition", "share", lambda: addition(100, 0.10, 0.12, 0.20, recovery=0.5)),
    ("recovery", "share", lambda: addition(100, 0.10, 0.12, 0.5, recovery=0)),
    ("wanted content", "share", lambda: charge(wanted=0.6)),
    ("wanted content", "share", lambda: charge(addition=0.11)),
    ("total", "kg", lambda: charge(returns_mass=120)),
    ("reduction", "share", lambda: total_reduction([0.5, 1.0])),
    ("size before", "as after", lambda: reduction(1, 2)),
    ("blank", "as the shell", lambda: drawing_ratio(1, 2)),
    ("first reduction", "share", lambda: passes(0.3, 0.2, 0, 0.2)),
    ("later reduction", "share", lambda: passes(1, 1e-9, 0.1, 1e-6)),
    ("blank", "m", lambda: passes(0.2, 0.3, 0.4, 0.2)),
    ("most", "share", lambda: anneals_due([0.1], 1.0)),
    # empty rows
    ("charges", "kg", lambda: blend([])),
    ("mass of all charges", "kg", lambda: blend([(0, 0.5)])),
    ("reductions", "share", lambda: total_reduction([])),
    ("reductions", "share", lambda: anneals_due([])),
    ("profile", "m", lambda: surface_area((0, 0), [])),
    ("sequence", "grit", lambda: coarse_steps([])),
    ("most", "times", lambda: coarse_steps(["P80", "P120"], 1)),
    ("parts", "", lambda: parts_of(1, [])),
    ("all parts", "", lambda: parts_of(1, [0, 0])),
    ("windows", "s", lambda: open_times(0, [], HOURS)),
    ("working times", "s", lambda: good_finishes([Interval(0, 1)], [])),
    ("window", "s", lambda: open_times(0, [Interval(-1, 1)], HOURS)),
    ("time the coat takes", "s", lambda: open_times(0, [Interval(0, 1)], HOURS, -1)),
    ("closes", "s", lambda: working_times(61200, 28800, 1)),
    ("days", "count", lambda: working_times(28800, 61200, 0)),
    # counts
    ("castings", "count", lambda: cycle_for(0, 28800)),
    ("castings at once", "count", lambda: casts_in(28800, 60, at_once=0)),
    ("coats", "count", lambda: paint_needed(1, 25e-6, 0.5, coats=0)),
    ("pieces", "count", lambda: mixes_for(0, 1, 60, 300)),
    ("good castings", "count", lambda: metal_needed(0, 0.4)),
    ("valence", "count", lambda: charge_equivalent(PlatingMetal("zinc", 0.06538, 7130, 0))),
    # words that nothing is published about
    ("grit", "", lambda: grit("P81")),
    ("grit", "", lambda: grit("eighty")),
    ("grit", "", lambda: grain_size(Grit("F", 81))),
    ("metal", "", lambda: plating_metal("unobtainium")),
    ("valence of gold", "", lambda: plating_metal("gold")),
    ("valence of gold", "", lambda: plating_metal("gold", 2)),
    ("standard", "", lambda: plating_class("ISO 0", "1")),
    ("class of 16 CFR 23", "", lambda: plating_class("16 CFR 23", "gilt")),
    ("wheel and work", "", lambda: speed_band("belt", "cork")),
    # heat
    ("mass", "kg", lambda: heat_to_melt(0, cold=20, melts=404, pours=460, solid_heat=435, latent_heat=112e3)),
    ("melting temperature", "°C", lambda: melt(melts=10)),
    ("pouring temperature", "°C", lambda: melt(pours=400)),
    ("specific heat of the solid", "J/(kg K)", lambda: melt(solid_heat=0)),
    ("specific heat of the liquid", "J/(kg K)", lambda: melt(liquid_heat=-1)),
    ("latent heat", "J/kg", lambda: melt(latent_heat=-1)),
]


@pytest.mark.parametrize(
    ("argument", "unit", "ask"), CASES, ids=[f"{n}-{argument}" for n, (argument, _, _) in enumerate(CASES)]
)
def test_what_cannot_be_names_the_figure_and_its_unit(argument: str, unit: str, ask: Callable[[], object]) -> None:
    with pytest.raises(Impossible) as caught:
        ask()
    assert (caught.value.argument, caught.value.unit) == (argument, unit)
    assert str(caught.value).startswith(f"{argument} ({unit}) must" if unit else f"{argument} must")
    assert ", not " in str(caught.value)


@pytest.mark.parametrize("none", [math.nan, math.inf])
@pytest.mark.parametrize(
    "ask",
    [
        lambda x: mould_size(x, 0.01),
        lambda x: surface_speed(0.25, x),
        lambda x: blank_of_cup(x, 0.1),
        lambda x: superheat(x, 404),
        lambda x: metal_needed(100, x),
        lambda x: dry_film(x, 0.5),
        lambda x: pot_life_at(x, 20, 25),
        lambda x: open_times(x, [Interval(0, 1)], HOURS),
    ],
)
def test_what_is_no_number_is_refused(ask: Callable[[float], object], none: float) -> None:
    with pytest.raises(Impossible, match="must be a number"):
        ask(none)


def test_the_words_of_the_error() -> None:
    with pytest.raises(Impossible, match=r"^diameter \(m\) must be more than 0, not -0\.25$"):
        surface_speed(-0.25, 47.5)
    with pytest.raises(Impossible, match=r"^diameter \(m\) must be more than 0, not -0\.25$"):
        surface_speed(Fraction(-1, 4), 47.5)
    with pytest.raises(Impossible, match=r"^grit must be a grade of FEPA P, FEPA F or CAMI, not P81$"):
        grit("P81")


def test_it_is_an_ordinary_value_error_too() -> None:
    assert issubclass(Impossible, ValueError)
