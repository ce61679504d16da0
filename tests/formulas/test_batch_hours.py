"""What a batch takes and uses up, by hand beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.batch_hours import Work, batch_hours, costliest, weeks_of_work
from site_builder.formulas.batch_time import WorkTime
from site_builder.formulas.errors import Impossible
from site_builder.formulas.used_up import fresh_ones, material_used, packs_to_buy, pieces_per_life

MINUTE, HOUR = Fraction(60), Fraction(3600)

CAST = Work("cast", WorkTime(setup=HOUR, each=6 * MINUTE), lost=Fraction(1, 10))
PLATE = Work("plate", WorkTime(setup=20 * MINUTE, load=30 * MINUTE, load_size=Fraction(20)), wait=15 * MINUTE, hands=2)
DRY = Work("dry", WorkTime(), wait=12 * HOUR)


def test_the_batch_by_hand() -> None:
    """100 cast: 1 h and 10 h. 90 of them plated in five loads of 20, two people: 40 min and 5 h, waiting five times
    15 min. Then they dry over night."""
    spent = batch_hours([CAST, PLATE, DRY], 100)
    cast, plate, dry = spent.steps
    assert (cast.setup, cast.work, cast.waiting) == (HOUR, 10 * HOUR, 0)
    assert (plate.pieces, plate.setup, plate.work, plate.waiting) == (90, 40 * MINUTE, 5 * HOUR, 75 * MINUTE)
    assert (dry.hands_on, dry.waiting) == (0, 12 * HOUR)
    assert spent.hands_on == 16 * HOUR + 40 * MINUTE
    assert spent.setup == HOUR + 40 * MINUTE
    assert spent.waiting == 13 * HOUR + 15 * MINUTE


def test_what_costs_most_comes_first_and_drying_costs_nobody() -> None:
    spent = batch_hours([CAST, PLATE, DRY], 100)
    assert [step.name for step in costliest(spent.steps)] == ["cast", "plate"]
    assert [step.name for step in costliest(spent.steps, 1)] == ["cast"]


def test_where_nothing_comes_nothing_is_spent() -> None:
    ruined = Work("ruin", WorkTime(each=MINUTE), lost=Fraction(1))
    spent = batch_hours([ruined, PLATE], 10)
    assert (spent.steps[1].pieces, spent.steps[1].hands_on, spent.steps[1].waiting) == (0, 0, 0)
    assert batch_hours([CAST], 0).hands_on == 0


works = st.builds(
    lambda setup, each, load, size, wait, hands, lost: Work(
        "any", WorkTime(setup=setup, each=each, load=load, load_size=Fraction(size)), wait, hands, lost
    ),
    *[st.fractions(0, 1000, max_denominator=60)] * 3,
    st.integers(1, 50),
    st.fractions(0, 1000, max_denominator=60),
    st.integers(1, 4),
    st.fractions(0, 1, max_denominator=100),
)


@given(st.lists(works, max_size=5), st.integers(0, 500), st.integers(0, 100))
def test_more_pieces_never_take_less(way: list[Work], pieces: int, more: int) -> None:
    few, many = batch_hours(way, pieces), batch_hours(way, pieces + more)
    assert many.hands_on >= few.hands_on
    assert many.waiting >= few.waiting


@given(st.lists(works, min_size=1, max_size=5), st.integers(1, 500))
def test_a_batch_is_the_sum_of_its_procedures(way: list[Work], pieces: int) -> None:
    spent = batch_hours(way, pieces)
    assert spent.hands_on == sum(step.setup + step.work for step in spent.steps)
    assert len(costliest(spent.steps)) <= 3


@given(st.floats(0, 1e4), st.floats(0.01, 1e3), st.floats(0, 0.9))
def test_what_is_lost_is_taken_besides(pieces: float, each: float, lost: float) -> None:
    taken = material_used(pieces, each, lost=lost)
    assert taken * (1 - lost) == pytest.approx(pieces * each)


def test_material_for_the_lot_and_for_each() -> None:
    """260 pieces at 12 g and 300 g to fill the gun, a quarter beside: 3420 / 0.75 g."""
    assert material_used(260, 12, once=300, lost=0.25) == pytest.approx(4560)


@pytest.mark.parametrize(
    ("work", "life", "worn", "fresh"),
    [
        (100, 120, 0, 0),  # the belt in use does it all
        (100, 120, 20, 0),  # to its last piece
        (100, 120, 21, 1),
        (300, 120, 0, 2),  # 120 by the one in use, 120, and 60
        (300, 120, 120, 3),  # the one in use is done
        (0.3, 0.1, 0, 2),  # three tenths in tenths, though no machine writes them exactly
        (0, 120, 120, 0),  # no work, no new one
    ],
)
def test_new_belts(work: float, life: float, worn: float, fresh: int) -> None:
    assert fresh_ones(work, life, worn) == fresh


@given(st.integers(0, 1000), st.integers(1, 100), st.integers(0, 100), st.integers(0, 100))
def test_more_work_or_wear_never_asks_for_fewer(work: int, life: int, worn: int, more: int) -> None:
    worn = min(worn, life)
    assert fresh_ones(work + more, life, worn) >= fresh_ones(work, life, worn)
    assert fresh_ones(work, life, min(worn + more, life)) >= fresh_ones(work, life, worn)
    assert fresh_ones(work, life, worn) * life + (life - worn) >= work


def test_packs_and_pieces_come_whole() -> None:
    assert packs_to_buy(4.56, 1.0) == 5
    assert packs_to_buy(4.56, 1.0, in_stock=3.56) == 1
    assert packs_to_buy(4.56, 1.0, in_stock=10) == 0
    assert pieces_per_life(10, 3) == 3
    assert pieces_per_life(0, 3) == 0


@pytest.mark.parametrize(
    ("ask", "argument", "unit"),
    [
        (lambda: Work("cast", WorkTime(each=-MINUTE)), "each time of cast", "s"),
        (lambda: Work("dry", WorkTime(), wait=-HOUR), "wait of dry", "s"),
        (lambda: Work("plate", WorkTime(load=HOUR)), "load of plate", "pieces"),
        (lambda: Work("plate", WorkTime(load=HOUR, load_size=Fraction(1, 2))), "load of plate", "pieces"),
        (lambda: Work("cast", WorkTime(), hands=0), "hands of cast", "count"),
        (lambda: Work("cast", WorkTime(), lost=Fraction(11, 10)), "share lost in cast", "share"),
        (lambda: batch_hours([CAST], -1), "pieces started", "count"),
        (lambda: costliest([], 0), "count of procedures", "count"),
        (lambda: weeks_of_work(HOUR, 0), "working week", "h"),
        (lambda: weeks_of_work(-1), "work", "s"),
        (lambda: material_used(10, -1), "amount each", ""),
        (lambda: material_used(10, 1, lost=1.0), "share lost", "share"),
        (lambda: fresh_ones(10, 0), "life", ""),
        (lambda: fresh_ones(10, 5, 6), "life", ""),
        (lambda: fresh_ones(-1, 5), "work", ""),
        (lambda: pieces_per_life(10, 0), "use each piece", ""),
        (lambda: packs_to_buy(1, 0), "pack", ""),
    ],
)
def test_what_no_batch_can_be(ask: object, argument: str, unit: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert (caught.value.argument, caught.value.unit) == (argument, unit)
