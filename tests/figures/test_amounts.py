"""How a figure is rounded: no digit that nobody can mean, in neither system."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.figures.amounts import between, both, figure, mass
from site_builder.formulas.interval import Interval

MM, GRAM = 1e-3, 1e-3


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


@pytest.mark.parametrize(("low", "high", "words"), [
    (0.7, 1.5, "0.7 to 1.5 mm (0.028 to 0.059 in)"),     # a tenth is 4 thou: no tenths of a thou
    (0.01, 0.04, "0.01 to 0.04 mm (0.0004 to 0.0016 in)"),
    (0.817, 1.381, "0.82 to 1.38 mm (0.0322 to 0.0544 in)"),  # the lesser end no finer than the greater
    (200, 200, "200 mm (7.87 in)"),
    (293.4, 293.4, "293 mm (11.6 in)"),
    (0, 3, "0 to 3 mm (0 to 0.12 in)"),
    (-0.5, 3, "−0.5 to 3 mm (−0.02 to 0.118 in)"),
])
def test_a_length_in_both_systems(low: float, high: float, words: str) -> None:
    assert plain(both(Interval(low * MM, high * MM), "mm", "in", is_inch=False)) == words


def test_whole_inches_are_told_to_the_millimetre() -> None:
    assert plain(both(Interval(0.2032, 0.2032), "mm", "in", is_inch=True)) == "8 in (203 mm)"


@pytest.mark.parametrize(("low", "high", "words"), [
    (40_000, 40_000, "40 kg (88 lb)"), (1100, 1300, "1.1 to 1.3 kg (2.4 to 2.9 lb)"),
    (2.4, 4.0, "2.4 to 4 g (0.085 to 0.14 oz)"), (210, 250, "210 to 250 g (7.4 to 8.8 oz)"),
])
def test_a_mass_in_pounds_or_ounces(low: float, high: float, words: str) -> None:
    assert plain(mass(Interval(low * GRAM, high * GRAM), is_inch=False, digits=2)) == words


@pytest.mark.parametrize(("low", "high", "digits", "words"), [
    (3.42, 10.3, 2, "3.4 to 10"), (-0.00011, 0.0228, 3, "−0.0001 to 0.0228"), (1e-7, 1, 3, "0 to 1"),
    (16.34, 1234, 3, "16 to 1230"), (17.96, 18.04, 3, "18"), (0.0142, 0.0358, 3,
                                                                                        "0.0142 to 0.0358"),
])
def test_two_ends_are_told_alike(low: float, high: float, digits: int, words: str) -> None:
    assert between(low, high, digits) == words


@given(st.floats(1e-6, 1e6), st.integers(2, 4))
def test_rounding_moves_a_figure_by_no_more_than_half_its_last_digit(value: float, digits: int) -> None:
    assert float(figure(value, digits)) == pytest.approx(value, rel=0.51 * 10.0 ** (1 - digits))


@given(st.floats(1e-6, 10), st.floats(0, 10))
def test_both_systems_say_the_same(low: float, more: float) -> None:
    """The other system may be coarser, never elsewhere: within the last place of the first."""
    words = plain(both(Interval(low, low + more), "mm", "in", is_inch=False))
    first, other = words.removesuffix(" in)").split(" mm (")
    for metric, inch in zip(first.split(" to "), other.split(" to "), strict=False):
        assert float(inch) * 25.4 == pytest.approx(float(metric), rel=0.6, abs=(low + more) / 1000)
