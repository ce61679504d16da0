"""Wheels, belts and grits on small notebooks: how fast the rim runs, new and worn, and what each grit leaves."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.figures.figure import Figure

SHOP = """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}}
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: mop
steps:
  - do: Polish it.
    settings: {spindle speed: 2000 rev/min}
=== tools/mop.yml
tooling: mop
title: Sisal mop
properties: {wheel size: 250 mm, least size: 200 mm, rated speed: max 2900 rev/min}
=== tools/zinc.yml
material: zinc
title: Zinc
"""
GRITS = """\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
variants: {finish: {values: [matt, bright]}}
steps:
  - {do: Coarse., settings: {grit: P80}}
  - {do: Fine., SECOND settings: {grit: P120}}
  - {do: Finer., settings: {grit: P180..P240}}
"""
Told = Callable[..., list[str]]


@pytest.fixture
def told(tmp_path: Path) -> Told:
    """The sentences of one formula on one page."""

    def run(formula: str, notebook: str, kind: str = "procedure", id_: str = "polish-foot") -> list[str]:
        write_example(notebook, tmp_path)
        found = analysis(tmp_path, date(2026, 11, 24)).figures.get((kind, id_), ())
        return [one.sentence.replace("\u00a0", " ") for one in found
                if isinstance(one, Figure) and one.formula == formula]

    return run


def test_the_rim_of_a_wheel_beside_its_band_and_its_rating(told: Told) -> None:
    """pi x 0.25 m x 2000/60 s = 26.2 m/s = 5150 ft/min; 1 - 2000/2900 = 31 %."""
    assert told("surface speed", SHOP) == [
        "The rim of a new “Sisal mop” runs at 26.2 m/s (5150 ft/min). Recommended for a buff on zinc: 25.4 to 40.6 m/s "
        "(5000 to 8000 ft/min). It is rated for 2900 rev/min; 31 % of that is left."
    ]


def test_inches_give_the_same_speed_and_come_first_where_the_shop_writes_them(told: Told) -> None:
    only, = told("surface speed", SHOP.replace("250 mm", "9.8425 in"))
    assert "runs at 26.2 m/s (5150 ft/min)" in only
    belt = SHOP.replace("spindle speed: 2000 rev/min", "belt speed: 3500 ft/min").replace("Sisal mop", "Belt")
    only, = told("surface speed", belt)
    assert only.startswith("“Belt” runs at 3500 ft/min (17.8 m/s).")


def test_back_from_a_surface_speed_to_the_turns(told: Told) -> None:
    """5000 ft/min are 25.4 m/s; over pi x 0.25 m that is 32.34 turns a second."""
    only, = told("surface speed", SHOP.replace("spindle speed: 2000 rev/min", "surface speed: 5000 ft/min"))
    assert only.startswith("“Sisal mop” runs at 5000 ft/min (25.4 m/s). For that a new one of 250 mm (9.84 in) turns "
                           "at 1940 rev/min.")


def test_too_fast_is_said_on_the_page_too(told: Told) -> None:
    only, = told("surface speed", SHOP.replace("2000 rev/min", "3190 rev/min"))
    assert only.endswith("It is rated for 2900 rev/min: this is 10 % too fast and must not be run.")


def test_a_worn_wheel_runs_slower_until_it_is_turned_faster(told: Told) -> None:
    """pi x 0.2 m x 2000/60 s = 20.9 m/s; 2000 x 250/200 = 2500 rev/min."""
    assert told("surface speed of a worn wheel", SHOP) == [
        "“Sisal mop” worn to 200 mm (7.87 in) runs at 20.9 m/s (4120 ft/min) at the same turns. "
        "To run as it did when new it wants 2500 rev/min."
    ]


def test_the_last_reading_in_the_book_says_how_far_it_is_worn(told: Told) -> None:
    book = "".join(
        f"{'=== skills/records/measurements.yml' if n == 1 else '---'}\nmeasurement: {n}\n"
        f"measured: mop/wheel size\nreadings: {size} mm\nwho: ann\ndate: {day}\n"
        for n, size, day in ((1, 240, "2026-10-01"), (2, 230, "2026-11-02"))
    )
    only, = told("surface speed of a worn wheel", SHOP + book)
    assert only.startswith("“Sisal mop” worn to 230 mm (9.06 in) runs at 24.1 m/s")


def test_what_the_worn_wheel_does_not_bear_is_not_offered(told: Told) -> None:
    slower = SHOP.replace("max 2900", "max 2500").replace("2000 rev", "1950..2100 rev")
    only, = told("surface speed of a worn wheel", slower)
    assert "more than 2500 rev/min it does not bear" in only


def test_a_belt_runs_as_fast_as_the_wheel_that_drives_it(told: Told) -> None:
    """pi x 0.24 m x 1430/60 s = 17.97 m/s."""
    grinder = ("=== tools/grinder.yml\nmachine: grinder\ntitle: Grinder\n"
               "properties: {drive wheel: 240 mm, motor speed: 1430 rev/min}\n")
    only, = told("belt speed", SHOP + grinder, "tool", "grinder")
    assert "drives the belt at 18 m/s (3500 ft/min)" in only


def test_a_sequence_of_grits_with_its_grains(told: Told) -> None:
    only, = told("grit sequence", GRITS.replace("SECOND ", ""), id_="sand-foot")
    assert only == ("P80, P120, P180 then P240 cut with grains of 201, 125, 82 and 58 µm: "
                    "each takes out the scratches of the one before.")


def test_a_coarser_grit_after_a_finer_one_scratches_anew(told: Told) -> None:
    only, = told("grit sequence", GRITS.replace("SECOND ", "").replace("grit: P120", "grit: P60"), id_="sand-foot")
    assert "P60 after P80 cuts deeper scratches again" in only


def test_a_grit_of_another_variant_does_not_stand_between(told: Told) -> None:
    """The bright one is begun with P80, the matt one with P120; neither of them leads to the other."""
    begun = GRITS.replace("SECOND ", "for: {finish: matt}, ").replace("Coarse.,", "Coarse., for: {finish: bright},")
    only, = told("grit sequence", begun.replace("P80", "P40"), id_="sand-foot")
    assert "too coarse a step, P60 and P100 missing" in only
