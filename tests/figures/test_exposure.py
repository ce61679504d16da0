"""People: a full day at a machine, protection by half, shared days, lifts and measured air, as a shop writes them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import inf
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.exposure import exposed_works, exposure_figures
from site_builder.figures.figure import Fault, Figure, Missing

GRINDING = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts: {foot: Foot}
products: {lamp: {title: Lamp, of: {foot: 1}}}
calendar: {hours: 8 h/day}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot
skill: grinding
tools: belt-grinder
time: {each: 10 min}
steps:
  - do: Grind it.
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
skill: grinding
after: grind-foot
time: {each: 30 min}
steps: File it.
=== procedures/orders/spring.yml
order: spring
title: Spring
product: lamp
pieces: 60
due: 2026-06-01
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {noise: 95 dB(A), vibration: 5 m/s²}
=== skills/grinding.yml
skill: grinding
title: Grinding
covers: grind-foot
=== skills/people.yml
people: {old: {name: Otto Brandt, founding: true}, ida: {name: Ida Brandt}}
=== skills/records/sign-offs.yml
sign-off: 1
learner: ida
skill: grinding
level: alone
who: old
date: 2020-01-01
"""
MUFFS = """\
=== tools/protection/muffs.yml
protection: muffs
title: Muffs
properties: {attenuation: 24 dB}
"""


def known(folder: Path, text: str) -> Analysis:
    write_example(text, folder)
    return analysis(folder, date(2026, 3, 2))


def figures(folder: Path, text: str) -> list[Figure | Missing | Fault]:
    """All of the chapter, with plain blanks in the sentences."""
    return [replace(one, sentence=plain(one.sentence)) if isinstance(one, Figure) else one
            for one in exposure_figures(known(folder, text))]


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def told(folder: Path, text: str, kind: str, id_: str) -> list[Figure]:
    return [one for one in figures(folder, text) if isinstance(one, Figure) and (one.kind, one.id) == (kind, id_)]


def test_a_full_day_at_95_decibels_is_a_double_dose_by_one_rule_and_ten_by_the_other(tmp_path: Path) -> None:
    noise, vibration = told(tmp_path, GRINDING, "procedure", "grind-foot")
    # 29 CFR 1910.95 Table G-16: 95 dB(A) for four hours is a full dose. NIOSH 98-126 table 1-1: 47 minutes at 95.
    assert "daily level of 95 dB(A) over eight hours, 200 % of a day's dose by the 5 dB rule" in noise.sentence
    assert "1000 % by the 3 dB rule" in noise.sentence
    assert "after 4 h by the 5 dB rule and after 48 min by the 3 dB rule" in noise.sentence
    assert "the limit of 29 CFR 1910.95, the limit value of Directive 2003/10/EC" in noise.sentence
    assert noise.sentence.endswith("No hearing protection is named for this work.")
    assert "Local law and a qualified person decide" in noise.caution
    level, day = noise.inputs
    assert (level.written, level.kind, level.id) == ("95 dB(A)", "tool", "belt-grinder")
    assert level.at is not None and (level.at.path, level.at.line) == ("tools/machines/belt-grinder.yml", 3)
    assert day.at is not None and day.at.path == "procedures/shop.yml"
    # HSE: 5 m/s² for eight hours is the limit value and 400 points; the action value is reached after two hours.
    assert "A(8) of 5 m/s², 400 points" in vibration.sentence
    assert "2.5 m/s², after 2 h" in vibration.sentence and "limit value of Directive 2002/44/EC" in vibration.sentence


def test_a_protector_counts_with_half_and_the_european_limit_is_taken_under_it(tmp_path: Path) -> None:
    text = GRINDING.replace("vibration: 5 m/s²}", "vibration: 5 m/s²}\nwear: muffs") + MUFFS
    noise, _ = told(tmp_path, text, "procedure", "grind-foot")
    assert ("“Muffs”, told with 24 dB and counted with half of it after 7 dB are taken off, 8.5 dB, leaves "
            "86 dB(A) at the ear.") in noise.sentence
    assert "upper action value of Directive" in noise.sentence and "the limit value of" not in noise.sentence
    assert [one.id for one in noise.inputs] == ["belt-grinder", "", "muffs"]


def test_of_an_nrr_seven_come_off_before_it_is_halved(tmp_path: Path) -> None:
    muffs = MUFFS.replace("attenuation", "NRR").replace("24 dB", "25 dB")
    noise, _ = told(tmp_path, GRINDING.replace("5 m/s²}", "5 m/s²}\nwear: muffs") + muffs, "procedure", "grind-foot")
    # OSHA Technical Manual: (25 - 7) / 2 = 9 dB
    assert "9 dB, leaves 86 dB(A) at the ear" in noise.sentence


def test_a_running_time_makes_less_of_the_day(tmp_path: Path) -> None:
    text = GRINDING.replace("  - do: Grind it.", "  - do: Grind it.\n    settings: {running time: 5 min}")
    noise, vibration = told(tmp_path, text, "procedure", "grind-foot")
    assert "for 50 % of the time" in noise.sentence and "daily level of 92 dB(A)" in noise.sentence
    assert "200 points" in vibration.sentence
    assert [one.name for one in noise.inputs] == ["noise", "running time", "time for one", "working day"]


def test_a_machine_that_runs_longer_than_a_piece_takes_cannot_be(tmp_path: Path) -> None:
    text = GRINDING.replace("  - do: Grind it.", "  - do: Grind it.\n    settings: {running time: 15 min}")
    faults = {one for one in figures(tmp_path, text) if isinstance(one, Fault)}
    (fault,) = faults
    assert "must fit into the time for one piece, 10 min" in fault.message
    assert (fault.at.path, fault.at.line) == ("procedures/foot/grind-foot.yml", 8)


def test_without_a_calendar_a_day_of_eight_hours_is_assumed_in_words(tmp_path: Path) -> None:
    noise, _ = told(tmp_path, GRINDING.replace("calendar: {hours: 8 h/day}\n", ""), "procedure", "grind-foot")
    assert noise.inputs[1].written == "assumed: 8\u00a0h a day" and noise.inputs[1].at is None


def test_a_person_has_a_full_day_and_one_shared_as_the_order_shares_it(tmp_path: Path) -> None:
    full, shared, _, shaken = told(tmp_path, GRINDING, "person", "ida")
    assert full.sentence.startswith("Of what Ida does, most comes of “Grind the foot”: a full day of it, 8 h, makes")
    # ten minutes of forty at the belt: a quarter of the day at 95 dB(A) is 95 - 6
    assert "25 % “Grind the foot”, the rest quiet" in shared.sentence
    assert "daily level of 89 dB(A) over eight hours, 50 % of a day's dose by the 5 dB rule" in shared.sentence
    assert "A(8) of 2.5 m/s², 100 points" in shaken.sentence and "the action value of Directive" in shaken.sentence


def test_the_machine_tells_how_long_bare_ears_and_hands_may_be_at_it(tmp_path: Path) -> None:
    noise, vibration = told(tmp_path, GRINDING, "tool", "belt-grinder")
    assert noise.sentence == ("It makes 95 dB(A). Bare ears have a full dose after 4 h by the 5 dB rule and after "
                              "48 min by the 3 dB rule.")
    assert "the action value, 2.5 m/s², after 2 h and the limit value, 5 m/s², after 8 h" in vibration.sentence


def test_over_115_decibels_no_time_at_all_is_allowed_and_bangs_have_their_own_limit(tmp_path: Path) -> None:
    loud = GRINDING.replace("95 dB(A)", "120 dB(A)")
    work, _ = told(tmp_path, loud, "procedure", "grind-foot")
    # 29 CFR 1910.95 Table G-16 ends at 115 dB(A); 140 dB peak stand beside it, and in Directive 2003/10/EC
    assert "Over 115 dB(A) the 5 dB rule allows no time at all to bare ears" in plain(work.sentence)
    assert "none may pass 140 dB peak" in plain(work.caution)
    machine, _ = told(tmp_path, loud, "tool", "belt-grinder")
    assert machine.sentence.startswith("It makes 120 dB(A). Over 115 dB(A) the 5 dB rule allows no time at all")
    assert "none may pass 140 dB peak" in plain(machine.caution)
    noise = next(one for one in exposed_works(known(tmp_path, loud)) if one.what == "Noise")
    assert noise.worst.exposure == inf and noise.worst.at_the_top


def test_a_short_time_over_115_decibels_reaches_the_limit_whatever_the_dose(tmp_path: Path) -> None:
    text = GRINDING.replace("95 dB(A)", "116 dB(A)").replace(
        "  - do: Grind it.", "  - do: Grind it.\n    settings: {running time: 2 s}")
    work, _ = told(tmp_path, text, "procedure", "grind-foot")
    assert "the limit of 29 CFR 1910.95" in work.sentence


@pytest.mark.parametrize("level", ["95 dB", "95 dB(C)"])
def test_noise_that_is_not_in_db_a_is_not_taken_for_it(tmp_path: Path, level: str) -> None:
    found = figures(tmp_path, GRINDING.replace("95 dB(A)", level))
    assert not [one for one in found if isinstance(one, Figure) and "dose" in one.sentence]
    (missing,) = [one for one in found if isinstance(one, Missing) and one.write.startswith("noise:")]
    assert f"{level} is not in dB(A)" in missing.sentence
    assert missing.at.path == "tools/machines/belt-grinder.yml" and missing.at.line == 3


LIFTING = """\
=== procedures/foot/melt.yml
procedure: melt
title: Melt
steps:
  - do: Lift the ingots on to the rim.
    settings: {SETTINGS}
"""


def lifted(folder: Path, settings: str) -> list[Figure | Missing | Fault]:
    return figures(folder, LIFTING.replace("{SETTINGS}", "{" + settings + "}"))


def test_a_lift_by_the_niosh_equation(tmp_path: Path) -> None:
    (figure,) = lifted(tmp_path, "lift: 12 kg, reach: 40 cm, height: from 75 to 100 cm, time between lifts: 5 min")
    assert isinstance(figure, Figure)
    # RWL = 23 × 25/40 × 1 × 1 × 0.85 × 0.95 at the start (fair hold under 75 cm counts only there)
    assert "has a lifting index of 1." in figure.sentence and "From 1 on" in figure.sentence
    assert [one.name for one in figure.inputs[:4]] == ["lift", "reach", "height", "time between lifts"]
    assert "people under age" in figure.caution


def test_a_lift_told_in_inches_is_no_other_lift(tmp_path: Path) -> None:
    metric, inch = tmp_path / "metric", tmp_path / "inch"
    metric.mkdir()
    inch.mkdir()
    (one,) = lifted(metric, "lift: 10.16 kg, reach: 50.8 cm, height: from 25.4 to 76.2 cm")
    (other,) = lifted(inch, "lift: 22.3989658 lb, reach: 20 in, height: from 10 to 30 in")
    assert isinstance(one, Figure) and isinstance(other, Figure)
    index = [figure.sentence.split("lifting index of ")[1].split(":")[0] for figure in (one, other)]
    assert index[0] == index[1]


@pytest.mark.parametrize("settings", ["lift: 12 kg", "lift: 12 kg, reach: 40 cm"])
def test_a_lift_without_its_place_asks_for_the_line_to_write(tmp_path: Path, settings: str) -> None:
    (missing,) = lifted(tmp_path, settings)
    assert isinstance(missing, Missing)
    assert "height: from 20 to 75 cm" in missing.write and missing.at.line == 5


def test_the_air_is_never_reckoned_only_held_against_its_limit(tmp_path: Path) -> None:
    text = """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc
conditions: {measured in the air: 2 mg/m³}
steps: Pour it.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {exposure limit: 5 mg/m³}
"""
    material, work = figures(tmp_path, text)
    assert isinstance(material, Figure) and isinstance(work, Figure)
    assert "only measuring tells" in material.sentence
    assert "uses up 40 % of the limit" in work.sentence


def test_worst_first_for_the_page_of_staying_whole(tmp_path: Path) -> None:
    text = GRINDING + """\
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: spindle
steps: Polish it.
=== tools/machines/spindle.yml
machine: spindle
title: Spindle
properties: {noise: 86 dB(A)}
"""
    found = [(one.id, one.what) for one in exposed_works(known(tmp_path, text)) if one.reached]
    assert found == [("grind-foot", "Noise"), ("grind-foot", "Vibration"), ("polish-foot", "Noise")]
