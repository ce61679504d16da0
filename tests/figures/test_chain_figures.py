"""Chains of sizes, fits by name and screws in zinc, as a shop writes them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.chains import chain_figures
from site_builder.figures.fastenings import fastening_figures
from site_builder.figures.figure import Fault, Figure, Missing

CHAIN = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  housing: {title: Housing, sizes: {inside: 60 ±0.3 mm}}
  ring: {title: Ring, sizes: {width: 20 ±0.4 mm}}
  spacer: {title: Spacer, sizes: {width: 38 +0.2/0 mm}}
=== procedures/housing/close-housing.yml
procedure: close-housing
title: Close the housing
steps:
  - do: Slide them in.
    limits:
      play:
        is: ALLOWED
        sum: [housing/inside, minus ring/width, minus spacer/width]
"""


def known(folder: Path, text: str) -> Analysis:
    folder.mkdir(exist_ok=True)
    write_example(text, folder)
    return analysis(folder, date(2026, 3, 2))


def figures(found: Iterable[Figure | Missing | Fault]) -> list[Figure]:
    return [replace(one, sentence=one.sentence.replace("\u00a0", " ")) for one in found if isinstance(one, Figure)]


def chain(folder: Path, allowed: str, more: str = "") -> Figure:
    (figure,) = figures(chain_figures(known(folder, CHAIN.replace("ALLOWED", allowed) + more)))
    return figure


def test_worst_case_adds_up_and_root_sum_square_does_not(tmp_path: Path) -> None:
    figure = chain(tmp_path, "1..3 mm")
    # 60 - 20 - 38.1 = 1.9, ± (0.3 + 0.4 + 0.1) and ± sqrt(0.09 + 0.16 + 0.01)
    assert "comes to 1.1 to 2.7 mm (0.043 to 0.106 in) when every size stands at its worst" in figure.sentence
    assert "and to 1.39 to 2.41 mm" in figure.sentence
    assert "Parts within their own limits always go together." in figure.sentence
    # shares of the variance: 16, 9 and 1 of 26
    assert "62 % from “ring/width”, 35 % from “inside” and 3.8 % from “spacer/width”" in figure.sentence
    assert [(one.kind, one.id, one.at.line if one.at else 0) for one in figure.inputs[:3]] == [
        ("part", "housing", 4), ("part", "ring", 5), ("part", "spacer", 6)]
    assert figure.inputs[3].name == "allowed" and figure.step is not None


def test_a_limit_tighter_than_the_worst_case_tells_how_many_will_not_go_together(tmp_path: Path) -> None:
    sentence = chain(tmp_path, "1.5..2.5 mm").sentence
    # the gap varies by sqrt(0.26) / 3 = 0.17 mm around 1.9: 0.4 below is 2.35 deviations, a tail of 0.93 %
    assert "By the bell curve about 0.95 % of them will not go together." in sentence
    assert "never go together" in chain(tmp_path / "never", "5..6 mm").sentence


def test_measured_parts_speak_before_the_limits(tmp_path: Path) -> None:
    book = """\
=== skills/records/measurements.yml
measurement: 1
measured: ring/width
readings: [20.9 mm, 21 mm, 21.1 mm]
date: 2026-01-10
---
measurement: 2
measured: ring/width
readings: [33 mm]
date: 2026-01-11
---
measurement: 3
withdraws: 2
because: Read off the wrong way round.
date: 2026-01-11
"""
    figure = chain(tmp_path, "1..3 mm", book)
    assert "with the spread that up to 3 readings show" in figure.sentence
    share = re.search(r"show, about (\d+) % would not go together", figure.sentence)
    # the ring stands at 21: the gap at 0.9 on average, under the least in most of them
    assert share is not None and 70 < int(share[1]) < 95
    told = next(one for one in figure.inputs if one.name == "width, measured")
    assert told.written == "3 readings, the last on 2026-01-10" and told.at is not None


def test_inch_and_millimetre_make_the_same_chain(tmp_path: Path) -> None:
    inch = CHAIN.replace("60 ±0.3 mm", "2.362205 ±0.011811 in")
    (metric,) = figures(chain_figures(known(tmp_path / "metric", CHAIN.replace("ALLOWED", "1..3 mm"))))
    (other,) = figures(chain_figures(known(tmp_path / "inch", inch.replace("ALLOWED", "0.039..0.119 in"))))
    assert "1.1 to 2.7 mm (0.043 to 0.106 in)" in metric.sentence
    assert "0.043 to 0.106 in (1.1 to 2.7 mm)" in other.sentence


def test_the_drawing_says_in_words_what_it_shows_and_needs_no_colour(tmp_path: Path) -> None:
    drawing = chain(tmp_path, "min 1 mm").drawing.replace("\u00a0", " ")
    assert "forward by “inside”, 59.7 to 60.3 mm, back by “ring/width”, 19.6 to 20.4 mm" in drawing
    assert "allowed at least 1 mm; worst case 1.1 to 2.7 mm" in drawing
    assert set(re.findall(r'stroke="([^"]+)"|fill="([^"]+)"', drawing)) <= {
        ("currentColor", ""), ("none", ""), ("", "currentColor"), ("", "none")}


def test_a_hole_and_a_shaft_are_called_by_the_name_of_their_fit(tmp_path: Path) -> None:
    text = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts: {arm: {title: Arm, sizes: {bore: 6 H8 mm}}, rivet: {title: Rivet, sizes: {pivot: 6 f7 mm}}}
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
limits: {play: {is: max 0.05 mm, sum: [arm/bore, minus rivet/pivot]}}
steps: Rivet it.
"""
    (figure,) = figures(chain_figures(known(tmp_path, text)))
    # ISO 286-2: H8 on 6 mm is 0 to +18 µm, f7 is -10 to -22 µm
    assert "By name it is 6 H8/f7, a fit with room always: 10 to 40 µm." in figure.sentence


SCREW = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts: {foot: {title: Foot, material: zinc}, screw: {title: Screw, sizes: {thread: M4}}}
=== procedures/foot/screw-foot.yml
procedure: screw-foot
title: Screw the foot on
materials: screw
steps:
  - do: Tighten it.
    settings: {torque: TORQUE, thread engagement: min 8 mm}
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {tensile strength: 300 MPa}
"""


def test_a_torque_is_a_pull_and_wants_so_much_thread_in_zinc(tmp_path: Path) -> None:
    (figure,) = figures(fastening_figures(known(tmp_path, SCREW.replace("TORQUE", "2 N·m"))))
    # T = K d F: 2 / (0.20 × 0.004) = 2500 N and 2 / (0.25 × 0.004) = 2000 N; stress area of M4 8.78 mm² (ISO 898-1)
    assert "an M4 screw pulls with about 2000 to 2500 N (450 to 560 lbf), which is 230 to 280 MPa (" in figure.sentence
    assert "8 to 10 mm (0.31 to 0.39 in) of full thread are common practice" in figure.sentence
    assert {one.name for one in figure.inputs} == {"torque", "thread engagement", "tensile strength", "thread"}
