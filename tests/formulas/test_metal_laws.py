"""What holds of metal and mould whatever the figures: what is poured is not lost, and more is never less."""

from __future__ import annotations

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from site_builder.formulas.casting_rate import COMMON_DAY, casts_in, cycle_for
from site_builder.formulas.charge import MakeUp, addition, blend, make_up
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.formulas.melting_heat import heat_to_melt, melting_time
from site_builder.formulas.metal_needed import casting_yield, metal_needed
from site_builder.formulas.pouring import state, superheat, zinc_vapour_pressure
from site_builder.formulas.shrinkage import hot_size, mould_size, part_size, shrinkage_found
from site_builder.formulas.temperature import celsius, fahrenheit, meant_in_other_scale

degrees = st.floats(-273, 2000)
sizes = st.floats(1e-4, 10)
masses = st.floats(1e-3, 1e4)
shares = st.floats(0, 0.95)
contents = st.floats(0, 1)
counts = st.integers(1, 5000)


@given(degrees)
def test_there_and_back_between_the_scales(t: float) -> None:
    assert celsius(fahrenheit(t)) == pytest.approx(t, abs=1e-9)


@pytest.mark.parametrize(
    ("number", "written", "meant"),
    [
        (450, "°C", None),  # makes sense as written
        (842, "°C", 450),  # 842 °F
        (450, "°F", 450),  # he read °C off the pyrometer
        (842, "°F", None),
        (600, "°C", None),  # 600 °F is 316 °C, which melts nothing: in neither scale
    ],
)
def test_a_number_in_the_wrong_scale(number: float, written: str, meant: float | None) -> None:
    found = meant_in_other_scale(number, written, Interval(404, 520))  # type: ignore[arg-type]
    assert found == (None if meant is None else pytest.approx(meant))


@given(degrees, degrees, st.floats(0, 500))
def test_hotter_metal_has_more_superheat_and_is_never_more_solid(t: float, liquidus: float, more: float) -> None:
    assert superheat(t + more, liquidus) >= superheat(t, liquidus)
    assume(liquidus >= -263)
    row = ("solid", "mushy", "liquid")
    assert row.index(state(t + more, liquidus - 10, liquidus)) >= row.index(state(t, liquidus - 10, liquidus))


def test_the_ends_of_the_melting_range() -> None:
    """A solidus is still solid, a liquidus already liquid, and a pure metal is never mushy."""
    assert [state(t, 375, 404) for t in (375, 390, 404)] == ["solid", "mushy", "liquid"]
    assert [state(t, 419.5, 419.5) for t in (419, 419.5, 420)] == ["solid", "liquid", "liquid"]


@given(st.floats(25, 880), st.floats(1, 27))
@example(419.0, 1.0)  # across the melting point
def test_hotter_zinc_always_fumes_more(t: float, more: float) -> None:
    assert zinc_vapour_pressure(t + more) > zinc_vapour_pressure(t)


@given(sizes, shares)
def test_a_mould_gives_back_the_part_it_was_cut_for(part: float, shrinkage: float) -> None:
    mould = mould_size(part, shrinkage)
    assert mould >= part
    assert part_size(mould, shrinkage) == pytest.approx(part)
    assert shrinkage_found(mould, part) == pytest.approx(shrinkage, abs=1e-9)


@given(sizes, shares, st.floats(0.001, 1000))
def test_inches_or_millimetres_the_mould_is_the_same(part: float, shrinkage: float, unit: float) -> None:
    assert mould_size(part * unit, shrinkage) == pytest.approx(mould_size(part, shrinkage) * unit)


@given(sizes, st.floats(0, 1e-4), st.floats(0, 300), st.floats(0, 300))
def test_a_mould_that_cools_again_is_as_it_was(size: float, expansion: float, cold: float, hot: float) -> None:
    grown = hot_size(size, expansion, cold, hot)
    assert grown - size == pytest.approx(-(hot_size(size, expansion, hot, cold) - size))
    assert grown >= size if hot >= cold else grown <= size


@given(counts, masses, st.floats(0, 10), shares, shares, contents)
def test_no_metal_is_lost_on_paper(
    good: int, part: float, gates: float, scrap: float, loss: float, kept: float
) -> None:
    """What is melted is good castings, returns, what is not kept, and dross."""
    need = metal_needed(good, part, gates, scrap, loss, kept)
    thrown = (need.poured - good * part) * (1 - kept)
    assert need.melted == pytest.approx(good * part + need.returns + thrown + need.melted * loss)
    assert need.new == pytest.approx(need.melted - need.returns)
    assert need.melted >= need.poured >= good * part * (1 - 1e-12)
    assert casting_yield(good * part, need.poured * (1 + 1e-12)) <= 1


@given(counts, masses, shares, shares)
def test_more_scrap_never_needs_less_metal(good: int, part: float, scrap: float, other: float) -> None:
    low, high = sorted((scrap, other))
    assert metal_needed(good, part, 0.1, high).melted >= metal_needed(good, part, 0.1, low).melted


def test_a_batch_of_feet_by_hand() -> None:
    """260 feet of 0.4 kg, 0.1 kg of gate each, 5 % scrap, 2 % dross, everything kept.

    260 / 0.95 = 273.68 castings; times 0.5 kg poured 136.84 kg; melted 136.84 / 0.98 = 139.63 kg; back come
    136.84 - 104 = 32.84 kg; new metal 106.79 kg.
    """
    need = metal_needed(260, 0.4, 0.1, 0.05, 0.02)
    figures = (need.castings, need.poured, need.melted, need.returns, need.new)
    assert [round(figure, 2) for figure in figures] == [273.68, 136.84, 139.63, 32.84, 106.79]


@given(st.lists(st.tuples(masses, contents), min_size=1, max_size=6))
def test_a_blend_lies_between_what_goes_in_in_any_order(charges: list[tuple[float, float]]) -> None:
    mixed = blend(charges)
    assert min(c for _, c in charges) - 1e-9 <= mixed <= max(c for _, c in charges) + 1e-9
    assert blend(charges[::-1]) == pytest.approx(mixed)
    assert blend([(mass * 2.2046, content) for mass, content in charges]) == pytest.approx(mixed)


@given(masses, contents, contents, contents)
def test_what_is_added_brings_the_bath_to_what_was_wanted(
    bath: float, present: float, wanted: float, content: float
) -> None:
    low, middle, high = sorted((present, wanted, content))
    assume(high - middle > 1e-3)
    raised = addition(bath, low, middle, high)
    assert blend([(bath, low), (raised, high)]) == pytest.approx(middle, abs=1e-9)
    assume(middle - low > 1e-3)
    lowered = addition(bath, high, middle, low)
    assert blend([(bath, high), (lowered, low)]) == pytest.approx(middle, abs=1e-9)


def test_nothing_is_added_to_a_bath_that_is_right() -> None:
    assert addition(100, 0.11, 0.11, 0.5) == 0


def test_what_burns_off_is_added_on_top() -> None:
    """1 % of magnesium in a bath of 100 kg, of which half burns: a little over twice as much goes in, and what burned
    is not in the melt, which weighs 101.01 kg in the end."""
    added = addition(100, 0, 0.01, 1.0, recovery=0.5)
    assert added == pytest.approx(100 * 0.01 / 0.495)
    assert added / 2 / (100 + added / 2) == pytest.approx(0.01)


@given(masses, st.floats(0, 0.1), st.floats(0.12, 0.25), st.floats(0.7, 1), st.floats(0.5, 1))
def test_what_is_in_the_melt_after_burning_is_what_was_wanted(
    bath: float, present: float, wanted: float, content: float, recovery: float
) -> None:
    added = addition(bath, present, wanted, content, recovery)
    burned = added * content * (1 - recovery)
    assert (bath * present + added * content * recovery) / (bath + added - burned) == pytest.approx(wanted)


@given(masses, contents, contents, contents, contents, contents)
def test_a_charge_made_up_has_the_composition_that_was_wanted(
    total: float, part_returns: float, part_added: float, ingot: float, returns: float, content: float
) -> None:
    assume(abs(content - ingot) > 1e-3)
    returned = total * part_returns
    added = (total - returned) * part_added
    wanted = blend([(total - returned - added, ingot), (returned, returns), (added, content)])
    made = make_up(total, wanted, ingot=ingot, returns=returns, returns_mass=returned, addition=content)
    assert made.ingot + made.returns + made.addition == pytest.approx(total)
    assert made.addition == pytest.approx(added, abs=1e-6 * total)


def test_returns_that_are_right_need_only_ingot() -> None:
    same = make_up(100, 0.11, ingot=0.11, returns=0.11, returns_mass=40, addition=0.11)
    assert same == MakeUp(60, 40, 0)


def test_returns_that_are_too_rich_for_any_ingot() -> None:
    with pytest.raises(Impossible, match="within reach"):
        make_up(100, 0.11, ingot=0.11, returns=0.2, returns_mass=60, addition=0.3)


@given(masses, st.floats(0, 100), st.floats(101, 500), st.floats(0, 200), st.floats(0, 200))
def test_hotter_pouring_never_takes_less_heat(mass: float, cold: float, melts: float, a: float, b: float) -> None:
    low, high = sorted((a, b))
    figures = {"cold": cold, "melts": melts, "solid_heat": 435.0, "latent_heat": 112e3, "liquid_heat": 500.0}
    less, more = (heat_to_melt(mass, pours=melts + over, **figures) for over in (low, high))
    assert more >= less > 0
    assert heat_to_melt(2 * mass, pours=melts + low, **figures) == pytest.approx(2 * less)


def test_the_heat_of_the_solid_stands_for_the_liquid_where_that_is_not_told() -> None:
    told = heat_to_melt(1, cold=0, melts=400, pours=500, solid_heat=435, latent_heat=0, liquid_heat=435)
    assert heat_to_melt(1, cold=0, melts=400, pours=500, solid_heat=435, latent_heat=0) == told == 435 * 500


@given(st.floats(0, 1e9), st.floats(1, 1e5), st.floats(0.05, 1))
def test_a_worse_furnace_takes_longer(heat: float, power: float, efficiency: float) -> None:
    assert melting_time(heat, power, efficiency) >= melting_time(heat, power)


@given(counts, st.floats(3600, 43200), st.floats(0, 3000), st.integers(1, 6))
def test_the_cycle_found_for_a_number_gives_that_number(
    castings: int, working: float, setup: float, at_once: int
) -> None:
    made = casts_in(working, cycle_for(castings, working, setup, at_once), setup, at_once)
    assert castings <= made < castings + at_once


def test_a_cycle_that_is_not_finished_counts_nothing() -> None:
    assert casts_in(600, 301) == 1
    assert casts_in(600, 601) == 0
    assert casts_in(600, 60, setup=700) == 0


def test_fifty_a_day_by_hand_is_a_cycle_of_nine_and_a_half_minutes() -> None:
    assert cycle_for(COMMON_DAY, 8 * 3600) / 60 == pytest.approx(9.6)
