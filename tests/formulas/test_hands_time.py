"""Time of hands in one piece, reckoned by hand beside each check (common practice of piece costing)."""

from fractions import Fraction

import pytest

from site_builder.formulas.errors import Impossible
from site_builder.formulas.hands_time import HandsShare, hands_time

MINUTE = Fraction(60)


def test_operations_one_after_another_are_summed() -> None:
    """5 min and 4 to 6 min are 9 to 11 min."""
    way = [HandsShare(5 * MINUTE, 5 * MINUTE), HandsShare(4 * MINUTE, 6 * MINUTE)]
    assert hands_time(way) == (9 * MINUTE, 11 * MINUTE)


def test_two_people_for_ten_minutes_are_twenty_minutes_of_hands() -> None:
    assert hands_time([HandsShare(10 * MINUTE, 10 * MINUTE, hands=2)]) == (20 * MINUTE, 20 * MINUTE)


def test_a_load_shares_its_time() -> None:
    """An hour at the oven with 20 pieces in it is 3 min each."""
    assert hands_time([HandsShare(60 * MINUTE, 60 * MINUTE, pieces=Fraction(20))]) == (3 * MINUTE, 3 * MINUTE)


def test_no_work_takes_no_time() -> None:
    assert hands_time([]) == (0, 0)


def test_nobody_and_nothing_are_refused() -> None:
    with pytest.raises(Impossible, match=r"pieces at once \(count\) must be more than 0"):
        hands_time([HandsShare(MINUTE, MINUTE, pieces=Fraction(0))])
    with pytest.raises(Impossible, match=r"hands \(count\) must be a whole number, 1 or more"):
        hands_time([HandsShare(MINUTE, MINUTE, hands=0)])
