"""Screws with fine and with inch threads, and threads that nobody here knows."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.fastenings import fastening_figures, shallow
from site_builder.figures.figure import Figure, Missing
from site_builder.figures.thread_names import named_thread
from site_builder.formulas.errors import Impossible
from site_builder.formulas.inch_threads import SIZES

SCREW = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  foot: {title: Foot, material: zinc}
  screw: {title: Screw, sizes: {thread: THREAD}}
=== procedures/foot/screw-foot.yml
procedure: screw-foot
title: Screw the foot on
materials: screw
steps:
  - do: Tighten it.
    settings: {torque: TORQUE, thread engagement: ENGAGEMENT}
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {tensile strength: 41000 psi}
"""


def shop(folder: Path, thread: str, torque: str, engagement: str = "min 5/8 in") -> Analysis:
    text = SCREW.replace("THREAD", thread).replace("TORQUE", torque).replace("ENGAGEMENT", engagement)
    write_example(text, folder)
    return analysis(folder, date(2026, 3, 2))


def told(known: Analysis) -> Figure:
    (figure,) = fastening_figures(known)
    assert isinstance(figure, Figure)
    return figure


def test_an_inch_shop_reads_pounds_and_inches_first(tmp_path: Path) -> None:
    figure = told(shop(tmp_path, "1/4-20 UNC", "60 lbf·in"))
    sentence = figure.sentence.replace("\u00a0", " ")
    # T = K d F: 60 / (0.20 × 0.25) = 1200 lbf and 60 / (0.25 × 0.25) = 960 lbf; At = 0.0318 in² (ASME B1.1)
    assert "a 1/4-20 screw pulls with about 960 to 1200 lbf (4300 to 5300 N)" in sentence
    assert "which is 30000 to 38000 psi (210 to 260 MPa) over its core" in sentence
    assert "0.5 to 0.62 in (13 to 16 mm) of full thread are common practice" in sentence
    assert "ASME B1.1" in figure.source and "ISO 898-1" not in figure.source


def test_foot_pounds_do_as_well(tmp_path: Path) -> None:
    # 5 × 12 = 60 lbf·in
    figure = told(shop(tmp_path, '"#10-24"', "5 lbf·ft"))
    # 60 / (0.20 × 0.19) = 1579 lbf and 60 / (0.25 × 0.19) = 1263 lbf
    assert "a #10-24 screw pulls with about 1300 to 1600\u00a0lbf" in figure.sentence


def test_a_fine_metric_thread_has_more_core(tmp_path: Path) -> None:
    figure = told(shop(tmp_path, "M8x1", "12 N·m"))
    # 12 / (0.20 × 0.008) = 7500 N over 39.2 mm² (ISO 898-1) is 191 MPa; M8 has 36.6 mm²
    assert "an M8×1 screw pulls with about 6000 to 7500\u00a0N" in figure.sentence
    assert "150 to 190\u00a0MPa" in figure.sentence and "ISO 898-1" in figure.source


def test_too_little_thread_for_an_inch_screw_is_told(tmp_path: Path) -> None:
    ((_, wanted, tears),) = shallow(shop(tmp_path, "1/4-20", "60 lbf·in", "3/8 in"))
    assert wanted == pytest.approx(0.0127) and not tears
    ((_, wanted, tears),) = shallow(shop(tmp_path, "1/4-20", "60 lbf·in", "1/16 in"))
    # 1200 lbf on half of 41000 psi: 0.0585 in², of which an inch of 1/4-20 has 0.539 (Fastenal, stripping areas)
    assert wanted / 0.0254 == pytest.approx(0.0585 / 0.539, rel=0.01) and tears


@pytest.mark.parametrize(("thread", "why"), [
    ("W 5/32", ""),  # Whitworth
    ("G 1/4", ""),  # pipe
    ("M9", ""),
    ("9/16-12", ""),
    ("M6x0.5", "the pitch must be one of those of M6: 1, 0.75"),
    ("1/4-24", "the threads to the inch must be 20 (UNC) or 28 (UNF) at 1/4"),
    ("1/4-28 UNC", "the threads to the inch must be 20 at 1/4 UNC and 28 at 1/4 UNF"),
    ("M8x1-8g", ""),  # looser than 6g: it bears less than would be told
    ("1/4-20 UNC-1A", ""),
])
def test_a_thread_that_is_not_known_is_said_and_what_is_known(tmp_path: Path, thread: str, why: str) -> None:
    known = shop(tmp_path, thread, "2 N·m")
    (missing,) = fastening_figures(known)
    assert isinstance(missing, Missing)
    assert f"the thread {thread} of “Screw” is not known here{'; ' + why if why else ''}. Known are" in missing.sentence
    assert "coarse as M5 or fine as M8x1" in missing.sentence and "1/4-20" in missing.sentence
    assert (missing.at.path, missing.at.line) == ("procedures/shop.yml", 5)
    assert list(shallow(known)) == []


def test_one_that_is_known_is_told_beside_one_that_is_not(tmp_path: Path) -> None:
    known = shop(tmp_path, "M4}}\n  stud: {title: Stud, sizes: {thread: W 5/32", "2 N·m")
    assert [type(one) for one in fastening_figures(known)] == [Figure]
    text = SCREW.replace("materials: screw", "materials: [screw, stud]").replace("ENGAGEMENT", "8 mm")
    text = text.replace("THREAD", "M4}}\n  stud: {title: Stud, sizes: {thread: W 5/32").replace("TORQUE", "2 N·m")
    write_example(text, tmp_path / "both")
    both = analysis(tmp_path / "both", date(2026, 3, 2))
    assert {type(one) for one in fastening_figures(both)} == {Figure, Missing}


def test_a_thread_that_is_not_known_is_said_once_a_procedure(tmp_path: Path) -> None:
    text = SCREW.replace("ENGAGEMENT}", "8 mm}\n  - do: Once more.\n    settings: {torque: 3 N·m}")
    write_example(text.replace("THREAD", "W 5/32").replace("TORQUE", "2 N·m"), tmp_path)
    assert len(list(fastening_figures(analysis(tmp_path, date(2026, 3, 2))))) == 1


@pytest.mark.parametrize(("written", "name"), [
    ("M5", "M5"), ("M5x0.8", "M5"), ("m8 x 1", "M8×1"), ("M10 × 1,25", "M10×1.25"), ("M6-6g", "M6"),
    ("M8x1-6H/6g", "M8×1"), ("M6 LH", "M6"), ("1/4-20", "1/4-20"), ("1/4 - 20 UNC", "1/4-20"), ('1/4"-20', "1/4-20"),
    ("¼-20 UNC-2A", "1/4-20"), ("#10-24 UNC", "#10-24"), ("No. 10-24", "#10-24"), ("no 10-32 unf", "#10-32"),
    ("10-24 NC", "#10-24"), ("0.190-32 UNF", "#10-32"), ("3/8 UNF", "3/8-24"), ("7/16-14 UNRC", "7/16-14"),
])
def test_however_it_is_written_it_is_the_same_thread(written: str, name: str) -> None:
    found = named_thread(written)
    assert found is not None and found.name == name


@pytest.mark.parametrize("written", ["1/4", "10", "4 mm", "NPT 1/8", "UNC", "", "M"])
def test_what_names_no_thread_is_none(written: str) -> None:
    assert named_thread(written) is None


@given(st.sampled_from(sorted(SIZES)), st.integers(10, 80))
def test_a_count_is_that_of_its_series_or_impossible(size: str, count: int) -> None:
    diameter, *counts = SIZES[size]
    if count in counts:
        found = named_thread(f"{size}-{count}")
        assert found is not None and found.is_inch and found.thread.diameter == pytest.approx(diameter * 25.4)
    else:
        with pytest.raises(Impossible):
            named_thread(f"{size}-{count}")


@given(st.text(alphabet="M#No.UNCFx×-/ 0123456789.,gH", max_size=14))
def test_no_text_breaks_it(text: str) -> None:
    try:
        found = named_thread(text)
    except Impossible:
        return
    assert found is None or found.area > 0
