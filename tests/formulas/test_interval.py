"""Figures that are only known between two ends, and what comes of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.blanks import blank_of_cup
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.shrinkage import mould_size

sizes = st.floats(0.001, 10)


def test_a_mould_for_a_shrinkage_known_only_roughly() -> None:
    """100 mm of a metal that shrinks 1.0 to 1.3 %: cut the mould 101.0 to 101.3 mm."""
    found = spread(mould_size, 0.1, Interval(0.010, 0.013))
    assert (round(found.low, 6), round(found.high, 6)) == (0.101, 0.1013)


def test_named_figures_may_be_intervals_too() -> None:
    found = spread(blank_of_cup, 0.1, height=Interval(0.025, 0.05), trim=0.0)
    assert (round(found.low, 4), round(found.high, 4)) == (0.1414, 0.1732)


def test_what_is_known_gives_a_single_figure() -> None:
    assert spread(mould_size, 0.1, 0.0) == Interval(0.1, 0.1)


@given(sizes, sizes, sizes, sizes, st.floats(0, 1), st.floats(0, 1))
def test_no_figure_between_the_ends_gives_more_than_the_spread(
    a: float, b: float, c: float, d: float, t: float, u: float
) -> None:
    wide, high = Interval(min(a, b), max(a, b)), Interval(min(c, d), max(c, d))
    inner = blank_of_cup(
        min(wide.low + t * (wide.high - wide.low), wide.high), min(high.low + u * (high.high - high.low), high.high)
    )
    found = spread(blank_of_cup, wide, high)
    assert found.low * (1 - 1e-12) <= inner <= found.high * (1 + 1e-12)


def test_intervals_meet_or_they_do_not() -> None:
    assert Interval(1, 3) & Interval(2, 5) == Interval(2, 3)
    assert Interval(1, 2) & Interval(2, 5) == Interval(2, 2)
    assert Interval(1, 2) & Interval(3, 5) is None
    assert 2 in Interval(1, 2)
    assert 2.1 not in Interval(1, 2)
    assert 1e9 in Interval(48, math.inf)


def test_around_and_middle() -> None:
    assert Interval.around(10, -2) == Interval(8, 12)
    assert Interval(8, 12).middle == 10


@pytest.mark.parametrize("ends", [(2, 1), (math.nan, 1), (0, math.nan)])
def test_crossed_or_missing_ends(ends: tuple[float, float]) -> None:
    with pytest.raises(Impossible, match="interval"):
        Interval(*ends)


def test_an_end_that_cannot_be_says_so() -> None:
    with pytest.raises(Impossible, match=r"part size \(m\) must be more than 0, not 0"):
        spread(mould_size, Interval(0, 0.1), 0.01)
