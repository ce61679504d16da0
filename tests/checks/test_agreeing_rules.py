"""What is written twice must agree; what only looks like a contradiction passes."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.rules import agreeing, possible
from site_builder.notebook.finding import Finding, Level

TODAY = date(2026, 11, 24)
NOTEBOOKS = Path(__file__).parent.parent / "notebooks"
CODES = {rule.code for rule in (*agreeing.RULES, *possible.RULES)} | {"rule-crashed"}


@pytest.fixture
def found(tmp_path: Path):
    """Write a notebook and return what the rules on what must agree find in it."""

    def run(notebook: str) -> list[Finding]:
        write_example(notebook, tmp_path)
        return [one for one in examine(analysis(tmp_path, TODAY)) if one.code in CODES]

    return run


HONEST = sorted(one.parent for one in NOTEBOOKS.rglob("procedures") if one.is_dir())


@pytest.mark.parametrize("notebook", HONEST, ids=lambda one: one.name)
def test_honest_notebooks_of_many_trades_raise_no_alarm(notebook: Path) -> None:
    assert [one for one in examine(analysis(notebook, TODAY)) if one.code in CODES] == []


@pytest.mark.parametrize("notebook", ["fiddle", "kettle"])
def test_two_notebooks_full_of_what_only_looks_wrong_have_no_error(notebook: str) -> None:
    """A remedy on both sides of an aim, a tolerance about nought, a solder beside the metal, shears too weak with snips
    beside them, a whole weighed while its parts have masses of their own, a coarse grit after the grain was raised."""
    found = examine(analysis(NOTEBOOKS / "trades" / notebook, TODAY))
    assert [one for one in found if one.level is Level.ERROR] == []


WORK = "=== procedures/post/make-post.yml\nprocedure: make-post\ntitle: Make the post\nsteps: Make it.\n"


@pytest.mark.parametrize("limit", [
    "{is: max 0.1 mm, above: {do: Grind it., then: again}}",
    "{is: aim 0.05 mm; max 0.1, below: {means: It is better than it need be.}}",
    "{is: about 5 mm, below: {do: Wait.}, above: {do: Wait.}}",
    "{is: max ask; min 3 mm, above: {do: Ask.}}",
    "{is: ask, above: {do: Ask.}, below: {do: Ask.}}",
    "{by: size, is: {small: max 3 mm, large: 2..4 mm}, below: {do: Ask.}}",
    "{is: max 1/3 of wall, above: {do: File it.}}",
])  # fmt: skip
def test_a_remedy_on_a_side_that_may_be_missed_passes(found, limit: str) -> None:
    assert found(f"{WORK}limits: {{depth: {limit}, wall: 4 ±0.1 mm}}\n") == []


@pytest.mark.parametrize(("limit", "column"), [
    ("{is: max 0.1 mm, below: {do: Grind it.}}", "below"), ("{is: min 3 mm, above: {do: File it.}}", "above"),
    ("{by: size, is: {small: max 3 mm, large: max 4 mm}, below: {do: Ask.}}", "below"),
])  # fmt: skip
def test_a_remedy_on_a_side_without_a_limit_never_comes(found, limit: str, column: str) -> None:
    only, = found(f"{WORK}limits: {{depth: {limit}}}\n")
    assert only.code == "remedy-sideless" and only.message.startswith(f"`{column}` never comes")


GAUGE = "=== tools/gauges/dial.yml\ngauge: dial\ntitle: Dial\nproperties: {range: %s}\n"


@pytest.mark.parametrize(("limit", "reads", "codes"), [
    ("{is: 5 ±0.1 mm, with: dial}", "0..10 mm", []), ("{is: ±0.1 mm, with: dial}", "0..10 mm", []),
    ("{is: 42 ±0.1 mm, with: dial}", "0..10 mm", ["gauge-range-short"]),
    ("{is: 42 ±0.1 mm, with: [dial, gauge-blocks]}", "0..10 mm", []),
    ("{is: max 300 °C, with: dial}", "0..250 °C", ["gauge-out-of-range"]),
    ("{is: 200..300 °C, with: dial}", "0..250 °C", ["gauge-range-short"]),
    ("{is: 80..120 °F, with: dial}", "0..250 °C", []), ("{is: 2 in, with: dial}", "0..150 mm", []),
    ("{is: max 0.01 mm, with: dial}", "0.05..1 mm", ["gauge-out-of-range"]),
])  # fmt: skip
def test_a_limit_is_held_against_what_its_one_gauge_reads(found, limit: str, reads: str, codes: list[str]) -> None:
    assert [one.code for one in found(f"{WORK}limits: {{depth: {limit}}}\n{GAUGE % reads}")] == codes


SHOP = """\
=== procedures/shop.yml
shop: q
title: Q
products: {chair: {title: Chair, of: {leg: 4, seat: 1}, sizes: %s}}
parts:
  leg: {title: Leg, sizes: {mass: %s}}
  seat: {title: Seat, sizes: {mass: {by: wood, is: {oak: 3 kg, ash: 2 kg}}}}
variants: {wood: [oak, ash]}
"""


@pytest.mark.parametrize(("whole", "leg", "codes"), [
    ("{mass: 5..6 kg}", "0.6 kg", []),
    ("{mass: {by: wood, is: {oak: 5.4 kg, ash: 4.4 kg}}}", "0.6 kg", []),
    ("{mass: {by: wood, is: {oak: 4.4 kg, ash: 4.4 kg}}}", "0.6 kg", ["whole-lighter"]),
    ("{mass: 3 kg}", "0.6 kg", ["whole-lighter"]), ("{mass: 3 kg}", "ask", []), ("{mass: ask}", "0.6 kg", []),
    ("{height: 3 mm}", "0.6 kg", []),
])  # fmt: skip
def test_a_whole_is_weighed_against_its_parts_case_by_case(found, whole: str, leg: str, codes: list[str]) -> None:
    assert [one.code for one in found(SHOP % (whole, leg))] == codes


MATERIAL = "=== tools/materials/metal.yml\nmaterial: metal\ntitle: Metal\nproperties: %s\n"


@pytest.mark.parametrize(("properties", "codes"), [
    ("{solidus: 902 °C, liquidus: 920 °C}", []), ("{solidus: 419 °C, liquidus: 419 °C}", []),
    ("{solidus: 380..390 °C, liquidus: 386 °C}", []), ("{solidus: about 930 °C, liquidus: 920 °C}", ["names-crossed"]),
    ("{lowest heat: 500 °C, highest heat: 400 °C}", ["names-crossed"]), ("{least wall: 2 mm, wall: 3 mm}", []),
    ("{wall: 3 mm, outside: 5 mm}", ["names-crossed"]), ("{wall: 3 mm, outside: 6 mm}", []),
    ("{solidus: max 930 °C, liquidus: 920 °C}", []), ("{solidus: ask, liquidus: 920 °C}", []),
])  # fmt: skip
def test_two_values_keep_their_order(found, properties: str, codes: list[str]) -> None:
    assert [one.code for one in found(MATERIAL % properties)] == codes


def test_a_coarse_grit_begins_anew_after_the_filler(found) -> None:
    steps = "=== procedures/post/sand-post.yml\nprocedure: sand-post\ntitle: Sand the post\nsteps:\n"
    fine = "  - {do: Go across., settings: {grit: P240}}\n"
    fill = "  - {do: Fill the pits., materials: filler}\n"
    coarse = "  - {do: Go along., settings: {grit: P120}}\n"
    assert [one.code for one in found(steps + fine + coarse)] == ["grit-backward"]
    assert found(steps + fine + fill + coarse) == []
    only_deep = "  - {do: Go along., for: {pit: deep}, settings: {grit: P120}}\n"
    assert found(steps + fine + only_deep) == []


def test_a_solder_beside_the_metal_of_the_part_is_no_contradiction(found) -> None:
    shop = "=== procedures/shop.yml\nshop: q\ntitle: Q\nparts: {spout: {title: Spout, material: copper}}\n"
    work = "=== procedures/spout/solder-spout.yml\nprocedure: solder-spout\ntitle: Solder\npart: spout\n"
    copper = "=== tools/copper.yml\nmaterial: copper\ntitle: Copper\nproperties: {solidus: 1085 °C}\n"
    solder = "=== tools/solder.yml\nmaterial: solder\ntitle: Solder\nproperties: {solidus: 183 °C}\n"
    assert found(f"{shop}{work}steps: Solder.\nmaterials: [copper, solder]\n{copper}{solder}") == []
