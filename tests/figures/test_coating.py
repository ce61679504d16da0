"""Paint as a shop writes it: wet and dry, litres, mixes that go off, windows laid on the working day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.coating import coating_figures
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.mixes import mix_figures
from site_builder.figures.recoat_day import clock, laid_on_days, recoat_figures
from site_builder.formulas.interval import Interval

PRIMING = """\
=== procedures/shop.yml
shop: quay
title: Quay
products: {foot: {title: Foot, sizes: {painted area: 0.1 m²}}}
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday], hours: 8 h/day}
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
materials: [{material: primer, amount: 12.5 g per piece}]
conditions: {room temperature: 10..30 °C}
steps:
  - {id: mix, do: Mix it.}
  - id: spray
    do: Spray it.
    time: 2 min
    settings: {wet film: 50 µm}
    limits: {dry film: 20 µm}
    windows:
      working time: {is: max primer/pot life, after: mix, before: end of spray}
  - id: wait
    do: Let it hang.
    windows:
      recoat: {is: RECOAT, after: spray}
=== procedures/orders/fair.yml
order: fair
title: Fair
product: foot
pieces: 100
=== tools/materials/primer.yml
material: primer
title: Primer
properties:
  volume solids: 40 %
  density: 1.25 g/cm³
  pot life: {is: 4 h, given: {room temperature: 20 °C}}
"""


def known(folder: Path, text: str = PRIMING, recoat: str = "min 1 h; max 24 h") -> Analysis:
    folder.mkdir(exist_ok=True)
    write_example(text.replace("RECOAT", recoat), folder)
    return analysis(folder, date(2026, 3, 2))


def told(found: Iterable[Figure | Missing | Fault]) -> list[Figure]:
    return [replace(one, sentence=one.sentence.replace("\u00a0", " ")) for one in found if isinstance(one, Figure)]


def test_wet_is_dry_over_the_solids_and_a_litre_covers_ten_times_per_cent_over_micrometres(tmp_path: Path) -> None:
    coat, batch = told(coating_figures(known(tmp_path)))
    assert "To leave 20 µm (0.79 mil) of “Primer” dry, 50 µm (2 mil) are laid on wet." in coat.sentence
    # 10 × 40 / 20
    assert "A litre covers 20 m² of it when nothing is lost." in coat.sentence
    assert "What is set, 50 µm, leaves 20 µm" in coat.sentence
    # 0.1 m² over 20 m²/L is 5 mL; 12.5 g are 10 mL, so that half is lost
    assert "A piece takes 5 mL" in batch.sentence and "is 10 mL" in batch.sentence
    assert "50 % of it miss the piece or stay in pot and gun" in batch.sentence
    assert "For 100 (Fair) that is 1 L." in batch.sentence
    assert coat.step is not None and coat.inputs[0].at is not None


def test_inch_units_change_nothing_but_the_order_of_the_words(tmp_path: Path) -> None:
    text = PRIMING.replace("dry film: 20 µm", "dry film: 0.7874016 mil")
    coat, _ = told(coating_figures(known(tmp_path, text)))
    assert "To leave 0.787 mil (20 µm) of “Primer” dry, 2 mil (50 µm) are laid on wet." in coat.sentence


def test_thinner_makes_the_wet_coat_thicker(tmp_path: Path) -> None:
    text = PRIMING.replace("volume solids: 40 %", "volume solids: 40 %\n  thinner: 25 %")
    assert "63 µm (2.5 mil) are laid on wet" in told(coating_figures(known(tmp_path, text)))[0].sentence


def test_the_area_is_asked_for(tmp_path: Path) -> None:
    found = list(coating_figures(known(tmp_path, PRIMING.replace("painted area: 0.1 m²", "height: 30 mm"))))
    (missing,) = (one for one in found if isinstance(one, Missing))
    assert missing.write == "sizes: {painted area: 800 cm²}"


def test_a_paint_of_more_than_solids_is_a_fault_at_its_line(tmp_path: Path) -> None:
    found = coating_figures(known(tmp_path, PRIMING.replace("volume solids: 40 %", "volume solids: 140 %")))
    faults = {one for one in found if isinstance(one, Fault)}
    assert {(one.at.path, one.at.line) for one in faults} == {("tools/materials/primer.yml", 4)}


def test_loss_and_thinner_may_be_set_in_the_step(tmp_path: Path) -> None:
    text = PRIMING.replace("{wet film: 50 µm}", "{loss: 50 %, thinner: 10 %}")
    coat, batch = told(coating_figures(known(tmp_path, text.replace(", amount: 12.5 g per piece", ""))))
    # 20 µm / 0.40 × 1.1 is 55 µm wet; 5 mL a piece, of which half misses it, are 10 mL
    assert "55 µm (2.2 mil) are laid on wet" in coat.sentence
    assert "A piece takes 10 mL (0.34 fl oz) of “Primer” in one coat. For 100 (Fair) that is 1 L." in batch.sentence
    assert "loss" in [one.name for one in batch.inputs] and "thinner" in [one.name for one in coat.inputs]


def test_one_mix_covers_fewer_pieces_in_a_warm_room(tmp_path: Path) -> None:
    (mix,) = told(mix_figures(known(tmp_path)))
    # four hours at 20 °C are two at 30 and eight at 10, by half for each ten degrees; two minutes a piece
    assert "One mix of “Primer” covers 60 to 100 pieces before it goes off" in mix.sentence
    assert "its pot life is 2 to 8 h in a room of 10 to 30 °C" in mix.sentence
    assert "For 100 (Fair) that is 1 to 2 mixes." in mix.sentence
    assert {one.name for one in mix.inputs} >= {"pot life", "time for one", "room temperature", "amount"}


def test_the_time_of_a_piece_is_asked_for_where_only_the_whole_is_told(tmp_path: Path) -> None:
    text = PRIMING.replace("    time: 2 min\n", "").replace("steps:\n", "time: {each: 3 h}\nsteps:\n", 1)
    (missing,) = mix_figures(known(tmp_path, text))
    assert isinstance(missing, Missing) and missing.step is not None and str(missing.step.id) == "spray"


def test_a_piece_that_takes_longer_than_the_pot_life_cannot_be(tmp_path: Path) -> None:
    (fault,) = mix_figures(known(tmp_path, PRIMING.replace("time: 2 min", "time: 5 h")))
    assert isinstance(fault, Fault) and "must be at least what one piece takes" in fault.message


def test_prime_late_before_the_weekend_and_the_window_closes(tmp_path: Path) -> None:
    (figure,) = told(recoat_figures(known(tmp_path)))
    assert "the next coat follows after 60 min to 24 h. With work from 08:00 to 16:00:" in figure.sentence
    assert "before a working day a coat may be finished at any time of the work" in figure.sentence
    assert "before days off finish a coat by 15:00, else the window closes" in figure.sentence
    assert "assumed: 08:00" in [one.written for one in figure.inputs]
    assert "before days off: 08:00 to 15:00" in figure.drawing


@pytest.mark.parametrize(("window", "by"), [
    (Interval(3 * 3600, 12 * 3600), "13:00"),
    (Interval(1800, 4 * 3600), "15:30"),
])
def test_prime_after_a_time_and_the_window_closes_at_night(window: Interval, by: str) -> None:
    (laid,) = laid_on_days(None, window)
    assert laid.day == "on any day" and [clock(span.high) for span in laid.good] == [by]


def test_a_window_that_opens_after_work_and_closes_in_the_night_is_no_window(tmp_path: Path) -> None:
    (figure,) = told(recoat_figures(known(tmp_path, recoat="min 9 h; max 12 h")))
    assert "on any day finish none, as its window opens and closes with nobody there" in figure.sentence
