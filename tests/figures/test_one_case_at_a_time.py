"""A figure takes only what can hold together: the same row, a `for` that agrees, the wheel that is meant.

A knife grinder's shop: two stones on two spindles, blades of two steels.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.figures.figure import Figure
from site_builder.figures.given import time_each
from site_builder.notebook.model.procedure import Procedure

SHOP = """\
=== procedures/shop.yml
shop: grinders
title: Grinders
parts: {blade: Blade}
variants: {steel: [carbon, stainless], stone: [coarse-stone, fine-stone]}
=== procedures/blade/grind.yml
procedure: grind
title: Grind the blade
part: blade
tools: [coarse-stone, fine-stone]
{lines}
=== tools/tooling/coarse-stone.yml
tooling: coarse-stone
title: Coarse wheel
properties: {wheel size: 400 mm, rated speed: max 30 m/s}
=== tools/tooling/fine-stone.yml
tooling: fine-stone
title: Fine wheel
properties: {wheel size: 200 mm, rated speed: max 30 m/s}
=== tools/materials/camellia.yml
material: camellia
title: Camellia oil
properties: {bath temperature: 20..40 °C}
=== tools/materials/quench.yml
material: quench
title: Quenching oil
properties:
  bath temperature: {by: steel, is: {carbon: 50..60 °C, stainless: 80..90 °C}}
"""


def known(lines: str, folder: Path) -> Analysis:
    write_example(SHOP.replace("{lines}", lines), folder)
    found = analysis(folder, date(2026, 3, 2))
    assert found.reading == [], found.reading
    return found


def rims(found: Analysis) -> list[str]:
    return [one.sentence.replace("\u00a0", " ").split(" (")[0] for one in found.figures.get(("procedure", "grind"), ())
            if isinstance(one, Figure) and one.formula == "surface speed"]


def codes(found: Analysis) -> list[tuple[str, int]]:
    return [(one.code, one.at.line) for one in examine(found) if one.code.startswith(("past-", "speed-"))]


STEPS = """\
steps:
  - {do: Rough it., settings: {spindle speed: 1200 rev/min}}
  - {do: Hone it., settings: {spindle speed: 2600 rev/min}}"""


def test_the_speed_of_one_spindle_is_not_told_of_the_wheel_on_another(tmp_path: Path) -> None:
    """Which of the two wheels turns at which of the two speeds is not written: nothing is told."""
    assert rims(known(STEPS, tmp_path)) == []


def test_a_wheel_that_its_step_names_is_told(tmp_path: Path) -> None:
    """pi x 0.4 m x 1200 / 60 = 25.1 m/s; pi x 0.2 m x 2600 / 60 = 27.2 m/s."""
    lines = STEPS.replace("Rough it.,", "Rough it., tools: coarse-stone,").replace(
        "Hone it.,", "Hone it., tools: fine-stone,")
    assert rims(known(lines, tmp_path)) == [
        "The rim of a new “Coarse wheel” runs at 25.1 m/s", "The rim of a new “Fine wheel” runs at 27.2 m/s"]


def test_a_row_that_names_the_wheel_is_told_of_that_wheel(tmp_path: Path) -> None:
    lines = ("steps:\n  - do: Grind it.\n    settings:\n      spindle speed:\n        by: stone\n"
             "        is: {coarse-stone: 1200 rev/min, fine-stone: 2600 rev/min}")
    found = known(lines, tmp_path)
    assert rims(found) == ["Stone coarse-stone: the rim of a new “Coarse wheel” runs at 25.1 m/s",
                           "Stone fine-stone: the rim of a new “Fine wheel” runs at 27.2 m/s"]
    assert codes(found) == []


def test_a_wheel_is_condemned_only_at_its_own_speed(tmp_path: Path) -> None:
    """At 2600 rev/min the coarse wheel would run at 54 m/s; its own row is 1200, so nothing is wrong."""
    lines = ("steps:\n  - do: Grind it.\n    tools: coarse-stone\n    settings:\n      spindle speed:\n"
             "        by: steel\n        is: {carbon: 1200 rev/min, stainless: 2600 rev/min}")
    found = known(lines, tmp_path)
    told = [one.sentence for one in found.figures["procedure", "grind"] if isinstance(one, Figure)]
    assert [("must not be run" in one, one.split(":")[0]) for one in told] == [
        (False, "Steel carbon"), (True, "Steel stainless")]


def test_a_size_with_rows_is_told_by_its_rows(tmp_path: Path) -> None:
    text = SHOP.replace("wheel size: 400 mm", "wheel size: {by: steel, is: {carbon: 400 mm, stainless: 300 mm}}")
    lines = "steps:\n  - {do: Rough it., tools: coarse-stone, settings: {spindle speed: 1200 rev/min}}"
    write_example(text.replace("{lines}", lines), tmp_path)
    assert rims(analysis(tmp_path, date(2026, 3, 2))) == [
        "Steel carbon: the rim of a new “Coarse wheel” runs at 25.1 m/s",
        "Steel stainless: the rim of a new “Coarse wheel” runs at 18.8 m/s"]


@pytest.mark.parametrize(("materials", "steel", "wrong"), [
    ("quench", "carbon", []), ("quench", "stainless", ["past-the-material"]),
    ("{material: camellia, for: {steel: stainless}}", "carbon", []),
    ("{material: camellia, for: {steel: carbon}}", "carbon", ["past-the-material"]),
])
def test_a_setting_is_held_to_the_material_and_the_row_of_its_own_case(
    tmp_path: Path, materials: str, steel: str, wrong: list[str]
) -> None:
    lines = (f"materials: {materials}\nsteps:\n  - do: Quench it.\n    for: {{steel: {steel}}}\n"
             "    settings: {bath temperature: 52..58 °C}")
    assert [code for code, _ in codes(known(lines, tmp_path))] == wrong


def test_the_time_of_one_steel_is_not_told_for_all(tmp_path: Path) -> None:
    lines = ("time: [{each: 5 min, for: {steel: carbon}}, {each: 20 min, for: {steel: stainless}}]\n"
             "steps: Grind it.")
    found = known(lines, tmp_path)
    given = time_each(found, found.notebook.procedures["grind"])
    assert given is not None
    assert (given.span.low, given.span.high, given.input.written) == (300, 1200, "5 min or 20 min")


def test_a_reference_to_a_time_with_rows_reaches_over_all_of_them(tmp_path: Path) -> None:
    lines = ("time: [{each: 5 min, for: {steel: carbon}}, {each: 20 min, for: {steel: stainless}}]\n"
             "limits: {rest: {is: max 1/2 of time}}\nsteps: Grind it.")
    found = known(lines, tmp_path)
    [place] = found.index.places[Procedure]
    hits = found.references.values("time", place)
    assert [len(hit.limits) for hit in hits] == [2]
    assert found.reckoning.varies(hits)


SUM = """\
limits:
  blade: {by: steel, is: {carbon: 3.0..3.2 mm, stainless: 2.0..2.2 mm}}
  slot: [{is: 3.3..3.4 mm, for: {steel: carbon}}, {is: 2.3..2.4 mm, for: {steel: stainless}}]
  room: {is: min 0.05 mm; max 0.5 mm, sum: [slot, minus blade]}
steps: Grind it."""


def test_a_sum_takes_the_sizes_of_one_steel_at_a_time(tmp_path: Path) -> None:
    """Slot less blade is 0.1 to 0.4 mm with either steel; a stainless slot with a carbon blade never meets."""
    found = known(SUM, tmp_path)
    told = [one.sentence.replace("\u00a0", " ") for one in found.figures["procedure", "grind"]
            if isinstance(one, Figure) and one.formula == "chain of sizes"]
    assert [one.split(" (")[0] for one in told] == [
        "Steel carbon: “room” comes to 0.1 to 0.4 mm", "Steel stainless: “room” comes to 0.1 to 0.4 mm"]
    assert all("always go together" in one for one in told)
