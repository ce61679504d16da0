"""A day with its noise and its dose as a drawing: what is thick where, and the same in words."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from site_builder.figures.dose_drawing import Stretch, dose_drawing
from site_builder.formulas.interval import Interval

SVG = "{http://www.w3.org/2000/svg}"
RULES = (("5 dB rule", Interval(0.5, 0.5)), ("3 dB rule", Interval(1.5, 2.0)))


def bars(drawing: str) -> list[tuple[float, float]]:
    """From where to where each thick stroke runs, in points."""
    found = []
    for path in ElementTree.fromstring(drawing).iter(f"{SVG}path"):
        ends = re.fullmatch(r"M([\d.]+) [\d.]+ H([\d.]+)", path.get("d", ""))
        if path.get("stroke-width") and ends is not None:
            found.append((float(ends[1]), float(ends[2])))
    return found


def test_the_longest_stretch_comes_first_and_quiet_stays_thin() -> None:
    day = dose_drawing(8, [Stretch(2, 88), Stretch(4, 92)], RULES, False)
    first, second = bars(day)[:2]
    # 8 h are 324 points, from 8 to 332; two points are left between stretches
    assert first == (8, 168) and second == (170, 249)


def test_a_dose_reaches_as_far_as_its_share_of_the_scale() -> None:
    day = dose_drawing(8, [Stretch(4, 92)], RULES, False)
    # the greatest dose, two full ones, is 324 points wide: a full one stands at 170, half a one at 89
    assert bars(day)[1:] == [(8, 89), (8, 251), (251, 332)]
    assert day.count('d="M170.0 ') == 2


def test_the_same_in_words() -> None:
    day = dose_drawing(8, [Stretch(2, 88), Stretch(4, 92)], RULES, True)
    told = str(ElementTree.fromstring(day).get("aria-label")).replace("\u00a0", " ")
    assert told == ("A day of 8 h: 92 dB(A) for 4 h, 88 dB(A) for 2 h, the rest quiet. Of a full dose by the 5 dB rule "
                    "about 50 % and by the 3 dB rule about 150 to 200 %.")


def test_stretches_of_one_level_stand_together() -> None:
    day = dose_drawing(8, [Stretch(1, 92), Stretch(3, 88), Stretch(2.5, 92.2)], RULES, False)
    assert bars(day)[:2] == bars(dose_drawing(8, [Stretch(3.5, 92), Stretch(3, 88)], RULES, False))[:2]
    assert "A day of 8 h: 92 dB(A) for 3.5 h, 88 dB(A) for 3 h, the rest quiet." in day.replace("\u00a0", " ")


def test_a_quiet_day_has_no_drawing() -> None:
    assert dose_drawing(8, [], RULES, False) == dose_drawing(8, [Stretch(0, 92)], RULES, False) == ""


def test_ink_only() -> None:
    day = dose_drawing(8, [Stretch(4, 92)], RULES, False)
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', day)) <= {"none", "currentColor"}
