"""How long a hand practises until it is able: by the standard time, by the pieces of the proof, and how sure."""

from __future__ import annotations

from math import fsum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.skills.proof.curve_fit import Lot, fit_curve
from site_builder.skills.proof.learning_curve import piece_time, total_time
from site_builder.skills.proof.until_able import time_until

EIGHTY = fit_curve([Lot(1, piece_time(10, 0.8, n)) for n in range(1, 9)])
"""Ten minutes for the first piece, and a fifth less with every doubling; nothing strays from the curve."""
STRAYING = fit_curve([Lot(5, 60), Lot(5, 45), Lot(10, 70), Lot(10, 71), Lot(20, 118)])
"""About 13 minutes at first, 6 at the end."""


def test_the_eighth_piece_is_the_first_that_takes_512_thousandths() -> None:
    """80 % by itself three times; and with it eight pieces are made, which take 53.5 minutes."""
    found = time_until(EIGHTY, 5.12, None)
    assert found is not None
    assert (found.pieces, found.quick) == (8, True)
    assert found.took == pytest.approx(53.459, abs=0.001)  # 5.346 of the first, the tables say


def test_whoever_is_quick_sooner_still_makes_the_pieces_of_the_proof() -> None:
    found = time_until(EIGHTY, 5.12, 20)
    assert found is not None
    assert (found.pieces, found.quick) == (20, True)
    assert found.took == pytest.approx(104.85, abs=0.01)  # 10.485 of the first, the tables say


def test_where_no_time_is_told_the_pieces_alone_count() -> None:
    found = time_until(EIGHTY, None, 20)
    assert found is not None
    assert (found.pieces, found.quick) == (20, False)
    assert time_until(EIGHTY, None, None) is None


def test_a_standard_time_out_of_sight_leaves_the_pieces() -> None:
    """Half a second a piece: eight pieces are too few to look so far ahead."""
    assert time_until(EIGHTY, 0.01, None) is None
    found = time_until(EIGHTY, 0.01, 20)
    assert found is not None
    assert (found.pieces, found.quick) == (20, False)


def test_a_hand_that_strays_has_limits() -> None:
    found = time_until(STRAYING, 5.6, None)
    assert found is not None
    assert found.high is not None
    assert found.low < found.took < found.high
    fifty = time_until(STRAYING, None, 50)
    assert fifty is not None
    assert fifty.high is not None
    # the pieces were made: what they took, 364 minutes, lies within
    assert fifty.low < 364 < fifty.high


def test_with_three_lots_nearly_alike_nobody_can_say_how_long_at_most() -> None:
    found = time_until(fit_curve([Lot(10, 55), Lot(10, 50), Lot(10, 52)]), 4.95, None)
    assert found is not None
    assert found.high is None


def test_pieces_that_nobody_timed_count_all_the_same() -> None:
    """The third entry says nothing of time: the fourth begins at piece 31 all the same."""
    whole = [Lot(10, total_time(10, 0.8, 10)),
             Lot(10, total_time(10, 0.8, 20) - total_time(10, 0.8, 10)),
             Lot(10, total_time(10, 0.8, 40) - total_time(10, 0.8, 30), untimed=10)]
    fitted = fit_curve(whole)
    assert fitted.ends == (10, 20, 40)
    assert fitted.rate == pytest.approx(0.8)
    with pytest.raises(Impossible, match="untimed"):
        fit_curve(whole, "cumulative average")


@given(st.integers(1, 200), st.floats(0.6, 0.99))
def test_time_is_the_sum_of_the_pieces(pieces: int, rate: float) -> None:
    fitted = fit_curve([Lot(1, piece_time(7, rate, n)) for n in range(1, 6)])
    found = time_until(fitted, None, pieces)
    assert found is not None
    assert found.took == pytest.approx(fsum(piece_time(7, rate, n) for n in range(1, pieces + 1)))
    assert found.low <= found.took * (1 + 1e-9)
    assert found.high is not None
    assert found.took <= found.high * (1 + 1e-9)
