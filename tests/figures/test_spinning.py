"""Spun shells: the disc of equal area, reductions, discs out of a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.shells import read_outline
from site_builder.figures.spinning import spinning_figures

SHOP = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  bowl:
    title: Bowl
    material: brass
    sizes: {SIZES}
=== procedures/bowl/cut-disc.yml
procedure: cut-disc
title: Cut the disc
materials: brass
steps:
  - do: Mark the centres.
    settings: {gap between discs: 10 mm}
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {thickness: 1 mm, sheet length: 2 m, sheet width: 1 m}
"""


def known(folder: Path, sizes: str, change: Callable[[str], str] = str) -> Analysis:
    folder.mkdir(exist_ok=True)
    write_example(change(SHOP.replace("{SIZES}", "{" + sizes + "}")), folder)
    return analysis(folder, date(2026, 3, 2))


def told(found: Iterable[Figure | Missing | Fault], id_: str = "bowl") -> list[Figure]:
    return [replace(one, sentence=one.sentence.replace("\u00a0", " ")) for one in found
            if isinstance(one, Figure) and one.id == id_]


def test_half_a_sphere_takes_a_disc_of_its_width_times_the_root_of_two(tmp_path: Path) -> None:
    blank, drawn = told(spinning_figures(known(tmp_path, "shape: cap, mouth: 200 mm, height: 100 mm, disc: 290 mm")))
    # Machinery's Handbook, diameters of shell blanks: 1.414 × 200
    assert "has a disc of 283 mm (11.1 in)" in blank.sentence and "7.2 mm (0.28 in) to spare" in blank.sentence
    assert [(one.name, one.written) for one in blank.inputs] == [
        ("disc", "290 mm"), ("shape", "cap"), ("mouth", "200 mm"), ("height", "100 mm")]
    assert all(one.at is not None and one.at.line == 7 for one in blank.inputs)
    assert "drawn in 1.45 to 1, by 31 % of its width. That is less than the 50 %" in drawn.sentence


@pytest.mark.parametrize("sizes", [
    "shape: cup, rim: 100 mm, height: 75 mm, disc: 200 mm",
    "profile: outline in mm 0/0 50/0 50/75, disc: 200 mm",
    "shape: cup, rim: 3.937008 in, height: 2.952756 in, disc: 7.874016 in",
])
def test_a_cup_is_the_same_however_it_is_written(tmp_path: Path, sizes: str) -> None:
    blank = told(spinning_figures(known(tmp_path, sizes)))[0]
    # √(d² + 4dh) = √(10000 + 30000)
    assert "200 mm" in blank.sentence and "7.87 in" in blank.sentence and "just enough" in blank.sentence


def test_an_arc_in_an_outline_is_exact_and_drawn(tmp_path: Path) -> None:
    sizes = "profile: outline in mm 0/100 through 70.710678/70.710678 100/0, trim: 5 mm, disc: 290 mm"
    blank = told(spinning_figures(known(tmp_path, sizes)))[0]
    assert "a disc of 283 mm (11.1 in), with what is trimmed at the rim one of 290 mm" in blank.sentence
    assert 'role="img"' in blank.drawing and "Bowl cut through the middle, 100" in blank.drawing.replace("\u00a0", " ")


def test_the_shape_is_asked_for_where_everything_else_is_told(tmp_path: Path) -> None:
    found = list(spinning_figures(known(tmp_path, "rim: 200 mm, height: 100 mm, disc: 290 mm")))
    (missing,) = (one for one in found if isinstance(one, Missing))
    assert missing.write == "sizes: {shape: cone}" and (missing.kind, missing.id) == ("part", "bowl")


@pytest.mark.parametrize(("sizes", "wrong"), [
    ("shape: funnel, rim: 20 mm, height: 10 mm, disc: 29 mm", "must be one of cup, cone, cap"),
    ("profile: outline of the chuck, disc: 29 mm", "must be written as `outline in mm"),
    ("shape: cap, rim: 200 mm, height: 0 mm, disc: 290 mm", "height (m) must be more than 0"),
])
def test_what_cannot_be_is_a_fault_at_its_line(tmp_path: Path, sizes: str, wrong: str) -> None:
    faults = [one for one in spinning_figures(known(tmp_path, sizes)) if isinstance(one, Fault)]
    assert wrong in faults[0].message and faults[0].at.line == 7


def test_an_outline_must_have_a_point_after_each_through() -> None:
    with pytest.raises(ValueError, match="point after each"):
        read_outline("outline in mm 0/10 through 5/8 through 7/7 10/0")


def test_passes_and_anneals_where_the_metal_tells_what_it_bears(tmp_path: Path) -> None:
    sizes = "shape: cup, rim: 60 mm, height: 150 mm, disc: 200 mm"
    found = spinning_figures(known(tmp_path, sizes, lambda text: text.replace(
        "thickness: 1 mm", "thickness: 1 mm, first reduction: 40 %, later reduction: 25 %")))
    drawn = told(found)[1]
    # 200 → 120 → 90 → 67.5 → 60; 40 % and 25 % together are 55 %, more than half
    assert "it takes 4 passes, to 120 mm (4.72 in), 90 mm (3.54 in), 67.5 mm (2.66 in) and 60 mm" in drawn.sentence
    assert "annealed before pass 2." in drawn.sentence


def test_a_cone_tells_what_shearing_would_leave(tmp_path: Path) -> None:
    drawn = told(spinning_figures(known(tmp_path, "shape: cone, mouth: 200 mm, height: 173.2 mm, disc: 210 mm")))[1]
    # half angle 30°: the sine law leaves half the sheet
    assert "a wall of 0.5 mm (0.02 in)" in drawn.sentence


def test_discs_out_of_a_sheet_and_sheets_for_the_order(tmp_path: Path) -> None:
    order = ("=== procedures/orders/fair.yml\norder: fair\ntitle: Fair\nproduct: bowl\npieces: 40\n")
    found = spinning_figures(known(
        tmp_path, "shape: cap, mouth: 200 mm, height: 100 mm, disc: 290 mm",
        lambda text: text.replace("parts:\n", "products:\n") + order))
    (cut,) = told(found, "cut-disc")
    # pitch 300 mm: six along two metres, three across one; 18 × π/4 × 0.29² = 1.19 of 2 m²
    assert "18 discs with 41 % of the sheet left over in straight rows" in cut.sentence
    assert "For 40 (Fair) that is 3 sheets" in cut.sentence
