"""Materials and wearing parts that a batch uses up."""

from __future__ import annotations

from pathlib import Path

import pytest
from shops import PEGS, batch, shop

from site_builder.batch.used_up import UsedUp, used_up

STORE = """\
=== tools/materials/wax.yml
material: wax
title: Wax
=== tools/materials/paper.yml
material: paper
title: Paper
life: {count: about 6 pieces, do: Tear off a new strip.}
=== tools/tooling/belt.yml
tooling: belt
title: Belt
life: {count: 40 pieces, do: Change it.}
"""


def used(lines: str, folder: Path, pieces: int = 100) -> UsedUp:
    found = shop(PEGS.replace("steps: Turn it.\n", lines) + STORE, folder)
    return used_up(found.notebook, found.reckoning, batch(found, "peg", pieces))


def grams(found: UsedUp) -> tuple[float, float]:
    [wax] = found.materials
    return float(wax.amount.least) * 1000, float(wax.amount.most) * 1000


@pytest.mark.parametrize(("amount", "least", "most"), [
    ("9 g per piece", 900, 900), ("about 1 g per 10 pieces", 10, 10), ("2..3 g per piece", 200, 300),
    ("30 g per lot", 30, 30), ("50 g per order", 50, 50), ("aim 2 g per piece; max 3", 200, 200),
])
def test_how_much_of_a_material(tmp_path: Path, amount: str, least: float, most: float) -> None:
    found = used(f"materials: {{material: wax, amount: {amount}}}\nsteps: Turn it.\n", tmp_path)
    assert grams(found) == pytest.approx((least, most))


def test_units_never_change_the_answer(tmp_path: Path) -> None:
    """An ounce is 28.349523125 g by definition (international avoirdupois pound, 1959)."""
    ounces = used("materials: {material: wax, amount: 2 oz per piece}\nsteps: Turn it.\n", tmp_path / "a")
    same = used("materials: {material: wax, amount: 56.69904625 g per piece}\nsteps: Turn it.\n", tmp_path / "b")
    assert grams(ounces) == pytest.approx(grams(same))


def test_the_pieces_that_are_lost_take_material_too(tmp_path: Path) -> None:
    found = used("yield: {scrap: 10 %}\nmaterials: {material: wax, amount: 1 g per piece}\nsteps: Turn it.\n", tmp_path)
    assert grams(found)[0] > 110


def test_what_the_whole_tells_its_steps_do_not_tell_again(tmp_path: Path) -> None:
    lines = ("materials: {material: wax, amount: 3 g per piece}\n"
             "steps:\n  - {do: Wax it., materials: {material: wax, amount: 2 g per piece}}\n")
    assert grams(used(lines, tmp_path))[0] == pytest.approx(300)


def test_steps_are_added_up_where_the_whole_is_silent(tmp_path: Path) -> None:
    lines = ("steps:\n  - {do: Wax it., materials: {material: wax, amount: 2 g per piece}}\n"
             "  - {do: Wax it again., materials: {material: wax, amount: 1 g per piece}}\n")
    assert grams(used(lines, tmp_path))[0] == pytest.approx(300)


def test_an_amount_of_nothing_known_is_told(tmp_path: Path) -> None:
    assert used("materials: wax\nsteps: Turn it.\n", tmp_path).untold == (("wax", "turn-peg"),)
    assert used("materials: {material: wax, amount: 9 g}\nsteps: Turn it.\n", tmp_path).untold == (("wax", "turn-peg"),)


@pytest.mark.parametrize(("pieces", "least", "most"), [(30, 0, 1), (40, 0, 1), (100, 2, 3)])
def test_belts_that_lie_ready(tmp_path: Path, pieces: int, least: int, most: int) -> None:
    """The least if the belt in use is new, the most if it is at its end."""
    [belt] = used("tools: belt\nsteps: Turn it.\n", tmp_path, pieces).renewed
    assert (belt.id, belt.least, belt.most) == ("belt", least, most)


def test_paper_that_is_counted_by_its_strips(tmp_path: Path) -> None:
    found = used("materials: paper\nsteps: Sand it.\n", tmp_path, 60)
    assert [(one.id, one.least, one.most) for one in found.renewed] == [("paper", 9, 10)]
    assert found.untold == ()


def test_an_amount_that_cannot_be_is_told_at_its_line(tmp_path: Path) -> None:
    found = used("materials: {material: wax, amount: -9 g per piece}\nsteps: Turn it.\n", tmp_path)
    [fault] = found.faults
    assert fault.message == "amount must be 0 or more, not -0.009"
    assert fault.at.line == 3
