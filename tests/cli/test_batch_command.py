"""``benchlore batch N``: what a batch takes, on the terminal and for programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.checks.example import write_example
from site_builder.cli.batch import batch

SHOP = """\
=== procedures/shop.yml
shop: hinges
title: Hinges
products: {hinge: {title: Hinge, of: {leaf: 2, screw: 6}}}
parts: {leaf: Leaf, screw: {title: Screw, supplier: Drumlow}}
=== procedures/leaf/punch-leaf.yml
procedure: punch-leaf
title: Punch the leaf
skill: punching
yield: {scrap: 5 %}
time: 15..20 min
materials: strip
steps: Punch it.
=== procedures/hinge/pin-hinge.yml
procedure: pin-hinge
title: Pin the hinge
time: 1 min
steps: Drive the pin home.
=== tools/materials/strip.yml
material: strip
title: Strip
=== skills/punching.yml
skill: punching
title: Punching
=== skills/people.yml
people: {ada: Ada Ost, ola: {name: Ola Ost, founding: true, left: 2020}}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ola
date: 2020-01-01
learner: ada
skill: punching
level: alone
"""


@pytest.fixture
def hinges(tmp_path: Path) -> Path:
    write_example(SHOP, tmp_path)
    return tmp_path


def run(folder: Path, *arguments: str) -> Result:
    return CliRunner().invoke(batch, ["-n", str(folder), "--today", "2026-03-02", *arguments])


def words(result: Result) -> str:
    return " ".join(result.output.split())


def test_four_hundred_leaves_take_a_person_some_three_weeks(hinges: Path) -> None:
    """Common practice: at 15 to 20 min each two and a half to three and a half working weeks; here 5 % are lost."""
    told = words(run(hinges, "400", "--product", "leaf"))
    assert told.startswith("Leaf, 400 pieces For 400: start 429 pieces, so that with a chance of 95 % 400 leave")
    assert "takes 110 to 140 h of hands, 2½ to 3½ working weeks for one pair." in told


def test_tables_of_the_only_product(hinges: Path) -> None:
    told = words(run(hinges, "100"))
    assert "Hinge, 100 pieces" in told
    assert "Leaf 216 200 205 95 of 100" in told
    assert "Punch the leaf 216 54 to 72 h Ada Ost" in told
    assert "Screw 600 Drumlow" in told
    assert "Pin the hinge how many are lost yield: {scrap: 4 %}" in told
    assert "Strip how much goes into Punch the leaf amount: 9 g per piece" in told


@pytest.mark.parametrize("chance", ["0.8", "80", "80 %"])
def test_a_chance_may_be_written_in_three_ways(hinges: Path, chance: str) -> None:
    assert "with a chance of 80 % 400 leave" in words(run(hinges, "400", "-p", "leaf", "-c", chance))


def test_for_programs(hinges: Path) -> None:
    data = json.loads(run(hinges, "100", "--format", "json").stdout)
    assert (data["product"], data["pieces"], data["confidence"]) == ("hinge", 100, 0.95)
    [leaf, hinge] = data["parts"]
    assert (leaf["part"], leaf["start"], leaf["wanted"]) == ("leaf", 216, 200)
    assert leaf["procedures"][0]["work_s"] == [216 * 15 * 60, 216 * 20 * 60]
    assert hinge["procedures"][0]["tells_loss"] is False
    assert data["bought"] == {"screw": 600}
    assert data["amounts_untold"] == [["strip", "punch-leaf"]]


@pytest.mark.parametrize(("arguments", "message"), [
    (["0"], "`0` is no number of pieces"), (["ten"], "`ten` is no number of pieces. Write a whole number, as `120`"),
    (["10", "-p", "lock"], "`lock` is no product or part of this shop: leaf, screw, hinge."),
    (["10", "-c", "100 %"], "`100 %` is no chance. Write `95 %` or `0.95`"),
    (["10", "-c", "sure"], "`sure` is no chance."),
])
def test_a_slip_of_the_pen_is_told(hinges: Path, arguments: list[str], message: str) -> None:
    result = run(hinges, *arguments)
    assert result.exit_code == 2
    assert message in words(result)


def test_more_than_can_be_reckoned_is_told(hinges: Path) -> None:
    result = run(hinges, "200000")
    assert result.exit_code == 1
    assert "This cannot be reckoned: pieces (count) must be at most 100000, not 200000." in words(result)


def test_a_figure_that_cannot_be_is_named_and_left_out(tmp_path: Path) -> None:
    write_example(SHOP.replace("scrap: 5 %", "scrap: 500 %"), tmp_path)
    told = words(run(tmp_path, "100"))
    assert "procedures/leaf/punch-leaf.yml:4: share lost (share) must be 0 or more and less than 1, not 5" in told
    assert "Leaf 200 200 200" in told


def test_several_products_are_asked_for(tmp_path: Path) -> None:
    write_example("=== procedures/shop.yml\nshop: s\ntitle: S\nproducts: {bolt: Bolt, nut: Nut}\n", tmp_path)
    assert "Of which product? Say --product bolt or nut." in words(run(tmp_path, "10"))


def test_a_product_that_nothing_makes(tmp_path: Path) -> None:
    write_example("=== procedures/shop.yml\nshop: s\ntitle: S\nproducts: {bolt: Bolt}\n", tmp_path)
    result = run(tmp_path, "10")
    assert result.exit_code == 0
    assert "Nothing can be reckoned yet: no procedure makes it." in words(result)


def test_a_part_that_is_bought(tmp_path: Path) -> None:
    bought = "parts:\n  glass: {title: Glass, supplier: Orrin}\n"
    write_example(f"=== procedures/shop.yml\nshop: s\ntitle: S\n{bought}", tmp_path)
    assert "Nothing is made for it: it is bought in." in words(run(tmp_path, "10", "-p", "glass"))
