"""What a bell founder pours of each pattern is told for that pattern, and never of one for all."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.figures.figure import Figure

BELLS = """\
=== procedures/shop.yml
shop: bells
title: Bells
variants: {size: [small, large]}
products:
  bell:
    title: Bell
    material: bronze
    sizes: {mass: {by: size, is: {small: 1 kg, large: 4 kg}}}
=== procedures/bell/pour.yml
procedure: pour
title: Pour the bell
materials:
  - {material: bronze, by: size, amount: {small: 1.25 kg per piece, large: 5 kg per piece}}
yield: {scrap: 0 %}
steps:
  - {do: Pour it., settings: {casting temperature: 1100 °C}}
=== tools/materials/bronze.yml
material: bronze
title: Bell bronze
properties: {liquidus: 880 °C}
=== procedures/orders/tower.yml
order: tower
title: For the tower
product: bell
pieces: 10
"""


def sentences(text: str, kind: str, id_: str, formula: str, folder: Path) -> list[str]:
    write_example(text, folder)
    found = analysis(folder, date(2026, 3, 2))
    return [one.sentence.replace("\u00a0", " ") for one in found.figures.get((kind, id_), ())
            if isinstance(one, Figure) and one.formula == formula]


def test_each_size_takes_its_own_metal_and_yields_its_own_share(tmp_path: Path) -> None:
    """1 of 1.25 kg and 4 of 5 kg are both 80 %; one mass over the other amount would be 20 or over 100 %."""
    told = sentences(BELLS, "procedure", "pour", "casting yield", tmp_path)
    assert [one.split(" (")[0] for one in told] == [
        "Size small: for each good “Bell” 1.25 kg", "Size large: for each good “Bell” 5 kg"]
    assert all("; 80 % of what is poured" in one for one in told)


def test_an_order_that_leaves_the_size_open_names_it(tmp_path: Path) -> None:
    told = sentences(BELLS, "order", "tower", "metal for a batch", tmp_path)
    assert [one.split(":")[0] for one in told] == ["“Bell”, size small", "“Bell”, size large"]


def test_an_order_of_one_size_tells_that_size(tmp_path: Path) -> None:
    [told] = sentences(BELLS + "chosen: {size: large}\n", "order", "tower", "metal for a batch", tmp_path)
    assert "10 castings, 50 kg" in told
