"""What is large in one way only: four times the steps, the people or the photos are four times the work, and no more.

Counted are the calls of functions, which are the same on every machine and on every day.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from site_builder.handbook.binding import bind
from site_builder.handbook.config import HandbookConfig
from site_builder.handbook.drawings import Person, Taught, lineage
from tests.benchmark.shapes import SHAPES, TODAY
from tests.calls import calls_of

FEW = {"steps": 16, "people": 60, "photos": 20}
MOST = 2.6
"""Twice as many more may cost twice as much more; four times is what a square would cost."""


def growth(counted: Callable[[int], int], number: int) -> float:
    """What the step from twice to four times as many costs, over that from once to twice."""
    few, more, many = counted(number), counted(2 * number), counted(4 * number)
    assert few < more < many, "what costs less the more there is tells nothing of how it grows"
    return (many - more) / (more - few)


def bound(shape: str, folder: Path, number: int) -> int:
    """The calls that all pages of such a notebook take."""
    root = folder / f"{shape}-{number}"
    SHAPES[shape](root, number)
    config = HandbookConfig()
    config.load_dict({"today": TODAY.isoformat()})
    config.validate()

    def make() -> None:
        assert not bind(root, config, root, None).refused

    return calls_of(make)


@pytest.mark.parametrize("shape", SHAPES)
def test_four_times_as_many_are_at_most_four_times_the_work(shape: str, tmp_path: Path) -> None:
    bound(shape, tmp_path, 2)  # templates are read and compiled once
    assert growth(lambda number: bound(shape, tmp_path, number), FEW[shape]) <= MOST


def test_the_count_would_see_a_search_through_all_for_each() -> None:
    def squared(number: int) -> int:
        return calls_of(lambda: [[abs(a) for a in range(number)] for _ in range(number)])

    assert growth(squared, 60) > 1.3 * MOST


def test_a_lineage_of_many_is_drawn_in_rows() -> None:
    people = [Person(f"p{n}", f"Hand {n}") for n in range(41)]
    drawn = lineage(people, [Taught("p0", f"p{n}", "shaving") for n in range(1, 41)])
    assert all(f"Hand {n}" in drawn.wide for n in range(41))
    assert drawn.wide.count("shaving, from Hand 0") == 40
