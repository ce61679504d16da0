"""How many to start so that enough come out, against counting every case and against common sense."""

from __future__ import annotations

from itertools import product
from math import ceil, prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.formulas.starting import MOST, Loss, chance_of_enough, expected_good, pieces_to_start
from site_builder.formulas.yields import begin_on_average, rolled_yield

WAY = (Loss(0.04), Loss(0.01), Loss(0.06), Loss(0.02))
"""Cast, ground, plated, painted."""

losses = st.lists(st.builds(Loss, st.floats(0, 0.6), st.integers(0, 3)), max_size=4)


def test_dividing_by_the_yield_is_a_coin_toss() -> None:
    """260 lanterns at a yield of 87.6 %: 297 pieces give enough in about half of the batches, 307 in 19 of 20."""
    passed = rolled_yield(1 - loss.share for loss in WAY)
    divided = ceil(begin_on_average(260, passed))
    assert divided == 297
    assert 0.45 < chance_of_enough(divided, 260, WAY) < 0.6
    needed = pieces_to_start(260, WAY)
    assert needed > divided
    assert chance_of_enough(needed, 260, WAY) >= 0.95 > chance_of_enough(needed - 1, 260, WAY)


def test_pieces_lost_at_each_start_come_first() -> None:
    """Three warm-up castings and one torn-up test piece, nothing else lost: four more, with certainty."""
    assert pieces_to_start(100, [Loss(0, fixed=3), Loss(0, fixed=1)], 0.999) == 104
    assert chance_of_enough(104, 100, [Loss(0, 3), Loss(0, 1)]) == 1
    assert chance_of_enough(103, 100, [Loss(0, 3), Loss(0, 1)]) == 0


def test_without_losses_as_many_as_are_wanted() -> None:
    assert pieces_to_start(7, []) == 7
    assert pieces_to_start(0, WAY) == 0
    assert expected_good(50, []) == 50


def counted(started: int, wanted: int, way: list[Loss]) -> float:
    """The same chance by listing every number that may be good after each procedure, with Pascal's triangle."""
    rows = [[1.0]]
    for _ in range(started):
        rows.append([1.0, *(a + b for a, b in zip(rows[-1], rows[-1][1:], strict=False)), 1.0])
    total = 0.0
    for numbers in product(range(started + 1), repeat=len(way)):
        before, chance = started, 1.0
        for loss, after in zip(way, numbers, strict=True):
            left = max(before - loss.fixed, 0)
            if after > left:
                chance = 0.0
                break
            chance *= rows[left][after] * (1 - loss.share) ** after * loss.share ** (left - after)
            before = after
        if before >= wanted:
            total += chance
    return total


@given(st.integers(0, 7), st.integers(0, 7), st.lists(st.builds(Loss, st.floats(0, 1), st.integers(0, 2)), max_size=3))
@settings(max_examples=60, deadline=None)
def test_the_chance_is_that_of_every_case_counted(started: int, wanted: int, way: list[Loss]) -> None:
    assert chance_of_enough(started, wanted, way) == pytest.approx(counted(started, wanted, way), abs=1e-9)


@given(st.integers(0, 60), st.integers(1, 40), losses)
@settings(deadline=None)
def test_more_started_are_never_worse_and_more_wanted_never_likelier(n: int, wanted: int, way: list[Loss]) -> None:
    chance = chance_of_enough(n, wanted, way)
    assert 0 <= chance <= 1
    assert chance_of_enough(n + 1, wanted, way) >= chance - 1e-12
    assert chance_of_enough(n, wanted + 1, way) <= chance + 1e-12


@given(st.integers(1, 40), losses, st.floats(0.5, 0.99), st.floats(0, 0.009))
@settings(max_examples=50, deadline=None)
def test_the_fewest_that_are_enough(wanted: int, way: list[Loss], confidence: float, surer: float) -> None:
    needed = pieces_to_start(wanted, way, confidence)
    # 0.5 comes out as 0.49999999999999 where it is met exactly
    assert chance_of_enough(needed, wanted, way) >= confidence - 1e-12
    assert confidence > chance_of_enough(needed - 1, wanted, way)
    assert pieces_to_start(wanted, way, confidence + surer) >= needed
    assert needed >= wanted + sum(loss.fixed for loss in way)


@given(st.integers(1, 60), st.lists(st.floats(0, 0.5), min_size=2, max_size=4))
@settings(max_examples=50, deadline=None)
def test_the_order_of_the_procedures_does_not_matter_where_only_shares_are_lost(
    wanted: int, shares: list[float]
) -> None:
    way = [Loss(share) for share in shares]
    one = [Loss(1 - prod(1 - share for share in shares))]
    started = wanted * 2
    assert chance_of_enough(started, wanted, way) == pytest.approx(chance_of_enough(started, wanted, one), abs=1e-9)
    assert chance_of_enough(started, wanted, way[::-1]) == pytest.approx(chance_of_enough(started, wanted, way))


def test_a_great_batch_is_reckoned_too() -> None:
    """20,000 of 0.98: by the bell curve 1.645 deviations over the mean make 20,441."""
    assert pieces_to_start(20_000, [Loss(0.02)]) == pytest.approx(20_441, abs=2)


@pytest.mark.parametrize(
    ("ask", "argument"),
    [
        (lambda: Loss(1.1), "share lost"),
        (lambda: Loss(-0.1), "share lost"),
        (lambda: Loss(0.1, -1), "pieces lost each time"),
        (lambda: pieces_to_start(-1, []), "pieces wanted"),
        (lambda: pieces_to_start(10, WAY, 1.0), "confidence"),
        (lambda: pieces_to_start(10, WAY, 0.0), "confidence"),
        (lambda: pieces_to_start(10, [Loss(1)]), "share that comes through"),
        (lambda: pieces_to_start(MOST, WAY), "pieces wanted"),
        (lambda: chance_of_enough(MOST + 1, 1, []), "pieces"),
        (lambda: chance_of_enough(-1, 1, []), "pieces started"),
        (lambda: rolled_yield([1.2]), "share that goes right"),
        (lambda: begin_on_average(10, 0), "share that comes through"),
        (lambda: begin_on_average(-10, 0.5), "pieces wanted"),
    ],
)
def test_what_nobody_can_start(ask: object, argument: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert caught.value.argument == argument
