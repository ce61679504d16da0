"""Laws of a batch: more work never takes less time, and what is lost is lost in any order."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.batch_time import WorkTime, batch_time, working_days
from site_builder.formulas.hands_time import HandsShare, hands_time
from site_builder.formulas.yields import begin_on_average, reach_the_end, rolled_yield

pieces = st.integers(1, 5_000)
seconds = st.fractions(0, 36_000, max_denominator=60)
shares = st.fractions(0, 1, max_denominator=200)
times = st.builds(WorkTime, seconds, seconds, seconds, seconds, st.integers(1, 60).map(Fraction))
operations = st.builds(
    lambda least, more, hands, at_once: HandsShare(least, least + more, hands, Fraction(at_once)),
    seconds, seconds, st.integers(1, 4), st.integers(1, 40),
)


@given(times, pieces, pieces)
def test_more_pieces_never_take_less_time_and_two_batches_never_less_than_one(
    time: WorkTime, some: int, more: int
) -> None:
    one, other, both = (batch_time(time, count) for count in (some, more, some + more))
    assert one is not None and other is not None and both is not None
    assert max(one, other) <= both <= one + other


@given(times, pieces, st.integers(1, 100))
def test_a_full_load_takes_no_longer_than_one_that_lacks_a_piece(time: WorkTime, size: int, loads: int) -> None:
    time = WorkTime(load=time.load, load_size=Fraction(size))
    full, less = batch_time(time, size * loads), batch_time(time, Fraction(size * loads) - Fraction(1, 2))
    assert full == less == time.load * loads


@given(seconds, st.integers(1, 24), st.integers(1, 10))
def test_a_day_of_half_the_hours_makes_twice_the_days(work: Fraction, hours: int, times_as_long: int) -> None:
    assert working_days(work, Fraction(hours, times_as_long)) == working_days(work, Fraction(hours)) * times_as_long


@given(st.lists(operations, max_size=6))
def test_hands_do_not_care_for_the_order_of_operations(row: list[HandsShare]) -> None:
    assert hands_time(reversed(row)) == hands_time(row)
    least, most = hands_time(row)
    assert least <= most


@given(operations, st.integers(2, 5))
def test_twice_the_hands_at_twice_the_pieces_is_the_same_per_piece(one: HandsShare, k: int) -> None:
    assert hands_time([HandsShare(one.least, one.most, one.hands * k, one.pieces * k)]) == hands_time([one])


@given(st.integers(1, 5_000).map(Fraction), st.lists(shares, max_size=8))
def test_what_is_lost_is_lost_in_any_order_and_never_won_back(begun: Fraction, scraps: list[Fraction]) -> None:
    left = reach_the_end(begun, scraps)
    assert left == reach_the_end(begun, reversed(scraps))
    assert 0 <= left <= begun
    assert reach_the_end(begun, [*scraps, Fraction(1, 10)]) <= left


@given(st.lists(shares.map(float), min_size=1, max_size=8))
def test_a_row_of_operations_is_no_better_than_its_worst(passes: list[float]) -> None:
    assert 0 <= rolled_yield(passes) <= min(passes)


@given(st.integers(1, 5_000), st.lists(st.fractions(Fraction(1, 2), 1, max_denominator=100), max_size=6))
def test_what_is_begun_on_average_comes_out(wanted: int, passes: list[Fraction]) -> None:
    begun = begin_on_average(wanted, rolled_yield(map(float, passes)))
    left = reach_the_end(Fraction(begun), [1 - passed for passed in passes])
    assert abs(float(left) - wanted) < 1e-6 * wanted
