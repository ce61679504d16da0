"""What holds of plating, paint and windows whatever the figures."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from site_builder.formulas.coating import dry_film, paint_needed, spreading_rate, wet_film
from site_builder.formulas.deposition import (
    mass_deposited,
    metal_on,
    plating_time,
    thickness_deposited,
    thickness_from_gain,
)
from site_builder.formulas.interval import Interval
from site_builder.formulas.plating_classes import CLASSES, plating_class
from site_builder.formulas.plating_metals import PlatingMetal, plating_metal
from site_builder.formulas.pot_life import Mixes, mixes_for, parts_of, pot_life_at
from site_builder.formulas.recoat import good_finishes, open_times, working_times

HOUR = 3600.0
metals = st.sampled_from(
    [plating_metal("nickel"), plating_metal("copper", 1), plating_metal("copper", 2), plating_metal("gold", 1)]
)
films = st.floats(1e-6, 1e-3)
solids = st.floats(0.05, 1)
losses = st.floats(0, 0.9)


@given(metals, st.floats(1, 1000), st.floats(1, 1e5), st.floats(0.1, 1), st.floats(0.01, 10))
def test_weight_thickness_and_time_lead_to_one_another(
    metal: PlatingMetal, density: float, time: float, efficiency: float, area: float
) -> None:
    thick = thickness_deposited(density, time, metal, efficiency)
    weight = mass_deposited(density * area, time, metal, efficiency)
    assert plating_time(thick, density, metal, efficiency) == pytest.approx(time)
    assert metal_on(area, thick, metal.density) == pytest.approx(weight)
    assert thickness_from_gain(weight, area, metal.density) == pytest.approx(thick)


@given(st.floats(0, 1000), st.floats(0, 1e5))
def test_gold_from_valence_one_is_three_times_that_from_three(current: float, time: float) -> None:
    one, three = (mass_deposited(current, time, plating_metal("gold", valence)) for valence in (1, 3))
    assert one == pytest.approx(3 * three)


@given(metals, st.floats(1, 1000), st.floats(1, 1e5), st.floats(0.1, 1), st.floats(0.1, 1))
def test_a_better_bath_never_lays_down_less(
    metal: PlatingMetal, density: float, time: float, a: float, b: float
) -> None:
    worse, better = sorted((a, b))
    assert thickness_deposited(density, time, metal, worse) <= thickness_deposited(density, time, metal, better)


def test_an_arm_with_nickel_and_copper() -> None:
    """180 cm² with 12 µm of nickel (8.91) and 10 µm of copper (8.96): 1.92 and 1.61 g."""
    nickel = metal_on(0.018, 12e-6, plating_metal("nickel").density)
    copper = metal_on(0.018, 10e-6, plating_metal("copper", 2).density)
    assert [round(each * 1000, 2) for each in (nickel, copper)] == [1.92, 1.61]


def test_a_finer_grade_never_asks_for_less_nickel() -> None:
    row = [plating_class("JIS H 8617 on zinc", str(grade)).least for grade in range(1, 7)]
    assert row == sorted(row)
    assert all(each.source for grades in CLASSES.values() for each in grades.values())


def test_vermeil_is_twice_as_thick_in_france() -> None:
    assert plating_class("French law", "vermeil").least == 2 * plating_class("16 CFR 23", "vermeil").least


@given(films, solids, st.floats(0, 1))
def test_wet_and_dry_lead_to_one_another(film: float, share: float, thinner: float) -> None:
    assert dry_film(wet_film(film, share, thinner), share, thinner) == pytest.approx(film)
    assert wet_film(film, share, thinner) >= film
    assert dry_film(film, share, thinner) <= dry_film(film, share)


@given(st.floats(0.01, 1e4), films, solids, losses, st.integers(1, 5))
def test_paint_is_area_over_the_rate_for_each_coat(
    area: float, film: float, share: float, loss: float, coats: int
) -> None:
    paint = paint_needed(area, film, share, loss, coats)
    assert paint * spreading_rate(film, share, loss) == pytest.approx(area * coats)
    assert paint >= paint_needed(area, film, share) * coats * (1 - 1e-12)
    assert paint * share * (1 - loss) == pytest.approx(area * film * coats)


def test_the_primer_of_the_sheet() -> None:
    """40 % solids at 20 µm: 20 m² a litre on paper, and with half lost at the gun 10."""
    assert spreading_rate(20e-6, 0.4) / 1000 == pytest.approx(20)
    assert spreading_rate(20e-6, 0.4, 0.5) / 1000 == pytest.approx(10)
    assert wet_film(20e-6, 0.4) == pytest.approx(50e-6)


@given(st.floats(60, 1e5), st.floats(0, 40), st.floats(0, 40), st.floats(5, 20))
def test_a_warmer_room_never_lengthens_the_pot_life(life: float, told: float, room: float, halving: float) -> None:
    assert pot_life_at(life, told, told) == life
    assert pot_life_at(life, told, room + 1, halving) < pot_life_at(life, told, room, halving)
    back = pot_life_at(pot_life_at(life, told, room, halving), room, told, halving)
    assert back == pytest.approx(life)


@given(st.integers(1, 500), st.floats(0.001, 1), st.floats(1, 600), st.floats(1, 5000), st.floats(0, 0.1))
def test_the_mixes_cover_the_batch_and_none_goes_off(
    pieces: int, amount: float, each: float, life: float, left: float
) -> None:
    assume(life >= each)
    mixes = mixes_for(pieces, amount, each, life, left)
    assert (mixes.mixes - 1) * mixes.pieces < pieces <= mixes.mixes * mixes.pieces
    assert mixes.pieces * each <= life * (1 + 1e-6)
    stirred = (mixes.mixes - 1) * mixes.full + mixes.last
    assert stirred == pytest.approx(pieces * amount + mixes.mixes * left)


def test_filler_for_twenty_feet() -> None:
    """Pot life 5 min, a foot in 50 s with 8 g: six feet a mix, 48 g each time, the last for two feet."""
    assert mixes_for(20, 8, 50, 300) == Mixes(6, 4, 48, 16)
    assert mixes_for(20, 8, 50, 300, left=2, most=40) == Mixes(4, 5, 34, 34)
    assert mixes_for(3, 8, 50, 300) == Mixes(3, 1, 24, 24)


@given(st.floats(0, 1e4), st.lists(st.floats(0.01, 100), min_size=1, max_size=6))
def test_parts_make_up_the_whole(total: float, parts: list[float]) -> None:
    shares = parts_of(total, parts)
    assert sum(shares) == pytest.approx(total)
    assert parts_of(total, [part * 3 for part in parts]) == pytest.approx(shares)


WORK = working_times(8 * HOUR, 16.5 * HOUR, 3)


def hours(found: tuple[Interval, ...]) -> list[tuple[float, float]]:
    return [(each.low / HOUR, each.high / HOUR) for each in found]


def test_prime_after_one_and_the_window_closes_at_night() -> None:
    """Paint from 4 to 15 h after priming; work from 8:00 to 16:30, and the coat takes half an hour.

    Primed by 12:00 the feet are painted the same day; from 17:00 on they would be the next morning, but nobody
    works then: what is primed in the afternoon is lost.
    """
    window = [Interval(4 * HOUR, 15 * HOUR)]
    assert hours(good_finishes(window, WORK, takes=HOUR / 2)) == [(8, 12)]
    assert open_times(13 * HOUR, window, WORK, takes=HOUR / 2) == ()
    assert hours(open_times(10 * HOUR, window, WORK, takes=HOUR / 2)) == [(14, 16)]


def test_a_longer_window_reaches_the_next_morning() -> None:
    """4 to 18 h: primed at 14:00 or later, the next morning is in time; between noon and two it is not."""
    window = [Interval(4 * HOUR, 18 * HOUR)]
    assert hours(good_finishes(window, WORK, takes=HOUR / 2)) == [(8, 12), (14, 16.5)]


def test_a_closed_day_shuts_the_way_to_the_morning() -> None:
    closed = working_times(8 * HOUR, 16.5 * HOUR, 4, closed=[1])
    assert [each.low / HOUR for each in closed] == [8, 56, 80]
    window = [Interval(4 * HOUR, 18 * HOUR)]
    assert hours(good_finishes(window, closed, takes=HOUR / 2)) == [(8, 12)]


def test_a_coat_longer_than_any_day_is_never_begun() -> None:
    assert open_times(8 * HOUR, [Interval(0, 48 * HOUR)], WORK, takes=9 * HOUR) == ()


windows = st.tuples(st.floats(0, 30), st.floats(0, 60)).map(lambda w: Interval(w[0] * HOUR, (w[0] + w[1]) * HOUR))


@given(st.lists(windows, min_size=1, max_size=3), st.floats(8, 16.5), st.floats(0, 4))
def test_a_good_finish_is_one_after_which_the_next_coat_can_begin(
    row: list[Interval], finish: float, takes: float
) -> None:
    finished = finish * HOUR
    good = good_finishes(row, WORK, takes * HOUR)
    edges = [abs(finished - end) for each in good for end in (each.low, each.high)]
    assume(all(edge > 1 for edge in edges))
    begins = open_times(finished, row, WORK, takes * HOUR)
    assert any(finished in each for each in good) == bool(begins)
    for begin in begins:
        assert any(w.low - 1e-6 <= begin.low - finished <= w.high + 1e-6 for w in row)
        assert any(day.low <= begin.low and begin.high + takes * HOUR <= day.high + 1e-6 for day in WORK)


@given(windows, st.floats(8, 16.5), st.floats(0, 10))
def test_a_wider_window_never_opens_less(window: Interval, finish: float, more: float) -> None:
    def total(found: tuple[Interval, ...]) -> float:
        return sum(each.high - each.low for each in found)

    wider = Interval(window.low, window.high + more * HOUR)
    assert total(open_times(finish * HOUR, [wider], WORK)) >= total(open_times(finish * HOUR, [window], WORK)) - 1e-6
