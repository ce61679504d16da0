"""Plating as a shop writes it: metal on the pieces, current in the bath, classes, thickness as measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.plated import measured_thin, plated_figures
from site_builder.figures.plating import plating_figures

ORDER = """\
=== procedures/shop.yml
shop: quay
title: Quay
products: {arm: {title: Arm, sizes: {AREA}}}
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
where: the plater's
steps:
  - id: order
    do: Write the order sheet.
    limits:
      nickel: 20 ±5 µm
      copper under the nickel: 10 ±2 µm
=== procedures/orders/fair.yml
order: fair
title: Fair
product: arm
pieces: 100
"""


def known(folder: Path, text: str) -> Analysis:
    folder.mkdir(exist_ok=True)
    write_example(text, folder)
    return analysis(folder, date(2026, 3, 2))


def told(found: Iterable[Figure | Missing | Fault]) -> list[Figure]:
    return [replace(one, sentence=one.sentence.replace("\u00a0", " ")) for one in found if isinstance(one, Figure)]


@pytest.mark.parametrize("area", ["plated area: 180 cm²", "plated area: 27.9000558 in²"])
def test_grams_on_a_piece_and_on_the_batch(tmp_path: Path, area: str) -> None:
    (figure,) = told(plating_figures(known(tmp_path, ORDER.replace("{AREA}", "{" + area + "}"))))
    # 180 cm² × 15 to 25 µm × 8.91 g/cm³ is 2.4 to 4.0 g; × 8 to 12 µm × 8.96 is 1.3 to 1.9 g of copper
    assert "2.4 to 4 g" in figure.sentence and "1.3 to 1.9 g" in figure.sentence
    assert "For 100 (Fair) that is" in figure.sentence and "370 to 590 g" in figure.sentence
    assert [one.id for one in figure.inputs] == ["arm", "plate-arm", "plate-arm", "fair"]
    assert figure.inputs[0].at is not None and figure.inputs[0].at.path == "procedures/shop.yml"


def test_without_an_area_the_line_to_write_is_told(tmp_path: Path) -> None:
    (missing,) = plating_figures(known(tmp_path, ORDER.replace("{AREA}", "{height: 180 mm}")))
    assert isinstance(missing, Missing)
    assert missing.write == "sizes: {plated area: 180 cm²}" and missing.at.path == "procedures/shop.yml"


BATH = """\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Plate the arm
steps:
  - do: Hang it in.
    settings: {SETTINGS}
    limits: {LIMITS}
"""


def bath(folder: Path, settings: str, limits: str = "colour: bright") -> list[Figure | Missing | Fault]:
    text = BATH.replace("{SETTINGS}", "{" + settings + "}").replace("{LIMITS}", "{" + limits + "}")
    return list(plating_figures(known(folder, text)))


def test_faradays_law_for_nickel(tmp_path: Path) -> None:
    (figure,) = told(bath(tmp_path, "metal: nickel, current density: 3 A/dm², time in the bath: 30 min, "
                                    "current efficiency: 96 %", "nickel: 15..25 µm"))
    # MISUMI tutorial 166: 12.3 µm an hour at 1 A/dm²; × 3 × 0.5 h × 0.96
    assert "lays down 17.7 µm (0.697 mil) of nickel (valence 2) on average" in figure.sentence
    assert "That reaches the least that is asked for, 15 µm (0.59 mil); for it 25 min are needed." in figure.sentence
    assert [one.name for one in figure.inputs] == [
        "metal", "current density", "time in the bath", "current efficiency", "nickel"]


def test_gold_of_valence_one_lays_down_three_times_as_much_as_of_three(tmp_path: Path) -> None:
    rest = "current density: 1 A/dm², time in the bath: 10 min, current efficiency: 100 %"
    (one,) = told(bath(tmp_path / "one", f"metal: gold I, {rest}"))
    (three,) = told(bath(tmp_path / "three", f"metal: gold III, {rest}"))
    # MISUMI tutorial 166, table 1: gold from valence 1, 38.0 µm/h at 1 A/dm²
    assert "lays down 6.34 µm" in one.sentence and "lays down 2.11 µm" in three.sentence


def test_gold_without_its_valence_is_a_fault_and_a_bath_without_time_asks(tmp_path: Path) -> None:
    rest = "current density: 1 A/dm², time in the bath: 10 min, current efficiency: 100 %"
    (fault,) = bath(tmp_path / "gold", f"metal: gold, {rest}")
    assert isinstance(fault, Fault) and "must be 1 or 3" in fault.message and fault.at.line == 5
    (missing,) = bath(tmp_path / "time", "metal: nickel, current density: 3 A/dm²")
    assert isinstance(missing, Missing)
    assert missing.write == "settings: {time in the bath: 20 min, current efficiency: 95 %}"


def test_a_class_that_the_standard_does_not_have_is_a_fault(tmp_path: Path) -> None:
    found = bath(tmp_path, "colour: bright", "class of the coating: class 9 of JIS H 8617 on zinc")
    (fault,) = found
    assert isinstance(fault, Fault) and "must be one of 1, 2, 3, 4, 5, 6" in fault.message
    # a standard that is not tabled here is left to whoever has it
    assert not bath(tmp_path / "other", "colour: bright", "class of the coating: class 2 of ISO 1456")


BOOK = """\
=== skills/records/measurements.yml
measurement: 1
measured: {MEASURED}
readings: [{READINGS}]
date: 2026-01-10
"""


def measured(folder: Path, limits: str, readings: str, of: str = "plate-arm/order/nickel") -> Analysis:
    """The arm with these limits on its order sheet, a check that takes the nickel over from it, and a book."""
    check = ("=== procedures/arm/check-arm.yml\nprocedure: check-arm\ntitle: Check the arm\nsteps:\n"
             "  - {id: look, do: Read the report., limits: {nickel: plate-arm/order/nickel}}\n")
    sheet = ORDER.replace("{AREA}", "{height: 180 mm}").replace("      nickel: 20 ±5 µm\n", f"      {limits}\n")
    return known(folder, sheet + check + BOOK.replace("{MEASURED}", of).replace("{READINGS}", readings))


def test_as_measured_against_as_ordered(tmp_path: Path) -> None:
    (figure,) = told(plated_figures(measured(tmp_path, "nickel: 20 ±5 µm", "18 µm, 14 µm, 22 µm, 18 µm")))
    assert figure.sentence == ("“nickel” was measured 14 to 22 µm (0.55 to 0.87 mil), 18 µm on average of 4 readings. "
                               "Ordered is at least 15 µm (0.59 mil): 1 of the 4 is under that.")
    assert [(one.name, one.written) for one in figure.inputs] == [
        ("nickel, measured", "4 readings, the last on 2026-01-10"), ("ordered", "20 ±5 µm")]
    assert figure.inputs[0].at is not None and figure.inputs[0].at.path == "skills/records/measurements.yml"
    # 0.8 mil is 20.3 µm; the same readings in mil
    (inch,) = told(plated_figures(measured(tmp_path / "inch", "nickel: min 0.6 mil", "0.7 mil, 0.8 mil")))
    assert inch.sentence.startswith("“nickel” was measured 0.7 to 0.8 mil (18 to 20 µm), 0.75 mil on average")
    assert inch.sentence.endswith("at least 0.6 mil (15 µm): no reading is under that.")


def test_as_measured_against_the_class(tmp_path: Path) -> None:
    limits = "nickel: min 15 µm\n      class of the coating: class 3 of JIS H 8617 on zinc"
    (figure,) = told(plated_figures(measured(tmp_path, limits, "18 µm, 21 µm", "check-arm/look/nickel")))
    # JIS H 8617 as MISUMI tutorial 312 tables it: 20 µm of nickel in class 3 on zinc
    assert (figure.kind, figure.id) == ("procedure", "check-arm")
    assert "Ordered is at least 15 µm (0.59 mil): no reading is under that." in figure.sentence
    assert "“class 3 of JIS H 8617 on zinc” asks for at least 20 µm (0.79 mil): 1 of the 2 is under" in figure.sentence
    assert "MISUMI tutorial 312" in figure.source


def test_a_share_is_told_of_many_readings_only(tmp_path: Path) -> None:
    readings = "14 µm, " * 3 + ", ".join(["18 µm"] * 9)
    (figure,) = told(plated_figures(measured(tmp_path, "nickel: min 15 µm", readings)))
    assert "3 of the 12, 25 %, are under that." in figure.sentence
    (figure,) = told(plated_figures(measured(tmp_path / "one", "nickel: min 15 µm", "18 µm")))
    assert figure.sentence == ("“nickel” was measured once, 18 µm (0.71 mil). Ordered is at least 15 µm (0.59 mil): it "
                               "is not under that.")


def test_thinner_than_ordered_is_warned_of_once(tmp_path: Path) -> None:
    # where the sheet itself was measured, `reading-outside` says it already
    assert not list(measured_thin(measured(tmp_path / "own", "nickel: min 15 µm", "14 µm")))
    (thin,) = measured_thin(measured(tmp_path / "check", "nickel: min 15 µm", "16 µm, 14 µm", "check-arm/look/nickel"))
    assert (thin.written, thin.want.who, thin.at.line) == ("14 µm", "ordered", 3)
    assert not list(measured_thin(measured(tmp_path / "met", "nickel: min 15 µm", "15 µm", "check-arm/look/nickel")))
