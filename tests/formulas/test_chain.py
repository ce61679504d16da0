"""A chain of sizes: the hood on its frame, with the gap that must be left."""

from __future__ import annotations

from math import hypot, inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.chain import Size, expected_gap, gap_deviation, matters_most, root_sum_square, worst_case
from site_builder.formulas.errors import Impossible
from site_builder.formulas.going_together import misfits, put_together

HOUSING = Size("housing", 40.0, 0.0, 0.3)
GLASS = Size("glass", 30.0, -0.2, 0.2, -1)
RING = Size("ring", 9.6, -0.05, 0.05, -1)
LANTERN = (HOUSING, GLASS, RING)

tolerances = st.just(0.0) | st.floats(1e-6, 5)
sizes = st.builds(
    lambda nominal, low, width, factor: Size("any", nominal, low, low + width, factor),
    st.floats(0.1, 500),
    st.floats(-2, 2),
    tolerances,
    st.sampled_from([1.0, -1.0, 0.5, -2.0]),
)
chains = st.lists(sizes, min_size=1, max_size=8)


def test_the_lantern_by_hand() -> None:
    """Nominal gap 0.4, but the housing's limits lie to one side: 0.55 in the middle, ±0.4 at worst, ±0.255 likely."""
    worst, likely = worst_case(LANTERN), root_sum_square(LANTERN)
    assert (worst.low, worst.high) == pytest.approx((0.15, 0.95))
    assert (likely.low, likely.high) == pytest.approx((0.55 - hypot(0.15, 0.2, 0.05), 0.55 + hypot(0.15, 0.2, 0.05)))


def test_which_size_matters_most() -> None:
    """0.2², 0.15² and 0.05² are 40, 22.5 and 2.5 of 65 parts."""
    parts = matters_most(LANTERN)
    assert [part.name for part in parts] == ["glass", "housing", "ring"]
    assert [part.share for part in parts] == pytest.approx([40 / 65, 22.5 / 65, 2.5 / 65])


def test_a_chain_that_does_not_vary_has_nothing_that_matters() -> None:
    exact = Size("gauge block", 10, 0, 0)
    assert [part.share for part in matters_most([exact, exact])] == [0, 0]
    assert gap_deviation([exact]) == 0


def test_a_radius_counts_half_of_its_diameter() -> None:
    """A shaft of 20 ± 0.1 against a shoulder 10 ± 0.1 from the middle: half of 0.1, and 0.1."""
    worst = worst_case([Size("shoulder", 10, -0.1, 0.1), Size("shaft", 20, -0.1, 0.1, -0.5)])
    assert (worst.low, worst.high) == pytest.approx((-0.15, 0.15))


def test_readings_tell_more_than_the_drawing() -> None:
    """Five glasses from the crate are 0.1 over nominal and vary less than the drawing lets them."""
    measured = Size("glass", 30.0, -0.2, 0.2, -1, measured=(30.08, 30.10, 30.12, 30.09, 30.11))
    assert measured.mean == pytest.approx(30.10)
    assert measured.deviation == pytest.approx(0.0158, abs=1e-4)
    assert expected_gap([HOUSING, measured, RING]) == pytest.approx(0.45)
    assert gap_deviation([HOUSING, measured, RING]) < gap_deviation(LANTERN)
    # what the parts may be does not change by measuring five of them
    assert worst_case([HOUSING, measured, RING]) == worst_case(LANTERN)


def test_one_reading_is_no_spread() -> None:
    once = Size("glass", 30.0, -0.2, 0.2, -1, measured=(30.15,))
    assert (once.mean, once.deviation) == (30.0, pytest.approx(0.2 / 3))


@given(chains)
def test_the_likely_gap_lies_within_the_worst(chain: list[Size]) -> None:
    worst, likely = worst_case(chain), root_sum_square(chain)
    assert worst.low <= likely.low + 1e-9
    assert likely.high <= worst.high + 1e-9


@given(chains, st.floats(0, 1))
def test_a_wider_tolerance_never_narrows_the_gap(chain: list[Size], more: float) -> None:
    first, *rest = chain
    wider = Size(first.name, first.nominal, first.lower - more, first.upper + more, first.factor)
    for stack in (worst_case, root_sum_square):
        before, after = stack(chain), stack([wider, *rest])
        assert after.low <= before.low + 1e-9
        assert after.high >= before.high - 1e-9


@given(chains)
def test_the_order_of_the_sizes_changes_nothing(chain: list[Size]) -> None:
    turned = list(reversed(chain))
    assert worst_case(turned).low == pytest.approx(worst_case(chain).low, abs=1e-9)
    assert gap_deviation(turned) == pytest.approx(gap_deviation(chain))


@given(chains)
def test_inches_give_the_same_gap(chain: list[Size]) -> None:
    inches = [Size(s.name, s.nominal / 25.4, s.lower / 25.4, s.upper / 25.4, s.factor) for s in chain]
    assert worst_case(inches).high * 25.4 == pytest.approx(worst_case(chain).high, abs=1e-9)
    assert [p.share for p in matters_most(inches)] == pytest.approx([p.share for p in matters_most(chain)], abs=1e-9)


@given(chains)
def test_the_shares_make_a_whole(chain: list[Size]) -> None:
    parts = matters_most(chain)
    assert sum(part.share for part in parts) == pytest.approx(1 if gap_deviation(chain) else 0)
    assert [part.share for part in parts] == sorted((part.share for part in parts), reverse=True)


@given(chains, st.floats(-5, 5), st.floats(0, 5))
def test_a_wider_demand_lets_fewer_fail(chain: list[Size], least: float, more: float) -> None:
    assert misfits(chain, least - more).under <= misfits(chain, least).under
    if gap_deviation(chain):
        assert misfits(chain, least).all + misfits(chain, most=least).all == pytest.approx(1)


def test_a_chain_without_spread_fits_or_does_not() -> None:
    exact = [Size("block", 10, 0, 0)]
    assert misfits(exact, 10, 10).all == 0
    assert misfits(exact, 10.001).all == 1


def test_trial_and_bell_curve_tell_the_same() -> None:
    """Each share within four standard errors of the other."""
    trial = put_together(LANTERN, 0.35, 0.75)
    assert trial.misfits.all == pytest.approx(misfits(LANTERN, 0.35, 0.75).all, abs=4 * trial.doubt)
    assert trial.mean == pytest.approx(0.55, abs=0.003)
    assert trial.deviation == pytest.approx(gap_deviation(LANTERN), rel=0.03)


def test_the_same_seed_gives_the_same_trial() -> None:
    assert put_together(LANTERN, 0.3, runs=500) == put_together(LANTERN, 0.3, runs=500)
    assert put_together(LANTERN, 0.3, runs=500, seed=2) != put_together(LANTERN, 0.3, runs=500)


def test_nothing_within_its_limits_comes_outside_the_worst_case() -> None:
    worst = worst_case(LANTERN)
    for trial in (put_together(LANTERN), put_together(LANTERN, shape="even")):
        assert worst.low <= trial.narrowest <= trial.widest <= worst.high


def test_parts_nobody_measured_are_taken_as_anything_between_the_limits() -> None:
    """Even between the limits they vary by the half-width over root three, not over three."""
    trial = put_together([GLASS], shape="even")
    assert trial.deviation == pytest.approx(0.2 / 3**0.5, rel=0.02)
    assert put_together(LANTERN, 0.35, shape="even").misfits.all > put_together(LANTERN, 0.35).misfits.all


def test_a_trial_keeps_mean_and_spread_of_the_readings_and_their_shape() -> None:
    """Half of the rings come from one mould and half from another: fewer lie between than on a bell curve."""
    two_moulds = Size("ring", 9.6, -0.05, 0.05, 1, measured=(9.56, 9.561, 9.562, 9.64, 9.641, 9.642) * 5)
    trial = put_together([two_moulds], 9.59, 9.61)
    assert trial.mean == pytest.approx(two_moulds.mean, abs=0.001)
    assert trial.deviation == pytest.approx(two_moulds.deviation, rel=0.03)
    between, on_the_bell = 1 - trial.misfits.all, 1 - misfits([two_moulds], 9.59, 9.61).all
    assert between < 0.6 * on_the_bell


def test_what_a_trial_never_saw_may_still_be() -> None:
    """No misfit in 1000 assemblies: by the rule of three there may be three in a thousand."""
    trial = put_together([HOUSING], 0, runs=1000)
    assert (trial.misfits.all, trial.doubt) == (0, 0.003)


@pytest.mark.parametrize(
    ("ask", "argument"),
    [
        (lambda: worst_case([]), "chain"),
        (lambda: root_sum_square([]), "chain"),
        (lambda: matters_most([]), "chain"),
        (lambda: misfits([]), "chain"),
        (lambda: put_together([]), "chain"),
        (lambda: Size("glass", 30, 0.2, -0.2), "upper deviation of glass"),
        (lambda: Size("glass", 30, -0.2, 0.2, 0), "factor of glass"),
        (lambda: Size("glass", nan, -0.2, 0.2), "size of glass"),
        (lambda: Size("glass", 30, -0.2, 0.2, measured=(30.0, inf)), "size of glass"),
        (lambda: misfits(LANTERN, 1, 0), "greatest gap allowed"),
        (lambda: put_together(LANTERN, 1, 0), "greatest gap allowed"),
        (lambda: put_together(LANTERN, runs=0), "runs"),
    ],
)
def test_what_is_no_chain(ask: object, argument: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert caught.value.argument == argument
