"""Time for a batch, reckoned by hand beside each check."""

from fractions import Fraction

import pytest

from site_builder.formulas.batch_time import WorkTime, batch_time, time_to_reckon_with, working_days
from site_builder.formulas.errors import Impossible
from site_builder.quantity import parse_value

MINUTE = Fraction(60)


def test_setting_up_once_and_each_piece() -> None:
    """260 soles at 5 min after 20 min of setting up: 1300 min and 20 min are 22 h."""
    assert batch_time(WorkTime(setup=20 * MINUTE, each=5 * MINUTE), 260) == 22 * 60 * MINUTE


def test_a_load_that_is_not_full_takes_as_long_as_a_full_one() -> None:
    """45 blades tempered 20 at a time, 90 min a load: three loads."""
    oven = WorkTime(load=90 * MINUTE, load_size=Fraction(20))
    assert batch_time(oven, 40) == 180 * MINUTE
    assert batch_time(oven, 45) == 270 * MINUTE


def test_the_lot_counts_once_however_many_pieces_it_has() -> None:
    assert batch_time(WorkTime(lot=120 * MINUTE), 1) == batch_time(WorkTime(lot=120 * MINUTE), 500)


def test_all_four_together() -> None:
    """Set up 10, lot 30, 12 pieces at 2, three loads of 5 at 15 min: 10 + 30 + 24 + 45 = 109 min."""
    time = WorkTime(10 * MINUTE, 2 * MINUTE, 15 * MINUTE, 30 * MINUTE, Fraction(5))
    assert batch_time(time, 12) == 109 * MINUTE


def test_a_load_of_unknown_size_cannot_be_told() -> None:
    assert batch_time(WorkTime(each=2 * MINUTE, load=15 * MINUTE), 12) is None


def test_days_of_one_pair_of_hands() -> None:
    """22 h at 7 h a day are three days and a seventh."""
    assert working_days(22 * 60 * MINUTE, Fraction(7)) == Fraction(22, 7)


@pytest.mark.parametrize("pieces", [0, -3])
def test_no_batch_without_pieces(pieces: int) -> None:
    with pytest.raises(Impossible, match=r"pieces \(count\) must be more than 0"):
        batch_time(WorkTime(each=MINUTE), pieces)


def test_loads_and_days_must_hold_something() -> None:
    with pytest.raises(Impossible, match=r"load \(pieces\) must be at least"):
        batch_time(WorkTime(load=MINUTE, load_size=Fraction(0)), 3)
    with pytest.raises(Impossible, match=r"working day \(h\) must be more than 0"):
        working_days(MINUTE, Fraction(0))


@pytest.mark.parametrize(
    ("written", "seconds", "rough"),
    [
        ("5 min", 300, False),
        ("about 5 min", 300, True),
        ("4..6 min", 300, True),
        ("about 1 h 45 min", 6300, True),
        ("perhaps 90 s", 90, True),
    ],
)
def test_which_figure_a_batch_is_reckoned_with(written: str, seconds: int, rough: bool) -> None:
    assert time_to_reckon_with(parse_value(written)) == (seconds, rough)


@pytest.mark.parametrize("written", ["ask", "some min", "max 5 min", "3 mm"])
def test_no_batch_is_reckoned_with_what_is_no_time_or_not_told(written: str) -> None:
    assert time_to_reckon_with(parse_value(written)) is None
