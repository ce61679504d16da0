"""What the reader finds, beyond the two examples of each rule: together, once, and with the right word."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine, has_errors
from site_builder.checks.example import write_example
from site_builder.checks.rule import Rule
from site_builder.checks.rules import BY_CODE
from site_builder.checks.rules.reading import keys
from site_builder.notebook.finding import At, Finding, Found, Level

TODAY = date(2026, 11, 24)


def surveyed(example: str, folder: Path) -> Analysis:
    write_example(example, folder)
    return analysis(folder, TODAY)


def reading(example: str, folder: Path) -> list[Finding]:
    return surveyed(example, folder).reading


# ---------------------------------------------------------------- rule-crashed

def _divide(_survey: Analysis) -> Iterator[Found]:
    yield Found(At("procedures/foot/grind-foot.yml"), "Found before the fault.", "Mend it.")
    raise ZeroDivisionError("division by zero")


def _sound(analysis: Analysis) -> Iterator[Found]:
    for procedure in analysis.notebook.procedures.values():
        yield Found(procedure.at, "There is a procedure.", "Read it.")


def test_a_rule_that_fails_is_told_and_the_others_still_run(tmp_path: Path) -> None:
    rules = [
        Rule("broken-rule", Level.WARNING, "", "", "", _divide),
        Rule("sound-rule", Level.QUESTION, "", "", "", _sound),
    ]
    findings = examine(surveyed(keys.RULE_CRASHED.passes, tmp_path), rules)
    assert [f.code for f in findings] == ["sound-rule", "rule-crashed"]
    crashed = findings[1]
    assert crashed.level is keys.RULE_CRASHED.level
    assert crashed.message == "The rule `broken-rule` failed: ZeroDivisionError: division by zero."
    assert "fault of the program" in crashed.fix
    assert has_errors(findings)


# ---------------------------------------------------------------- the right word beside it

def test_the_nearest_key_is_named(tmp_path: Path) -> None:
    (found,) = reading("""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazzards: abrasion
""", tmp_path)
    assert found.fix == "Did you mean `hazards`?"


@pytest.mark.parametrize(("written", "fix"), [
    ("photo: grip.jpg", "Did you mean `pictures`?"),
    ("why: It rocks.", "Did you mean `because`?"),
    ("sizes: {width: 12 mm}", "Did you mean `limits`?"),
    ("speed: 18 m/s", "Write it under `settings`, as a name with its value: `settings: {speed: …}`."),
    ("age: min 18 y", "It belongs to a skill or a tool."),
    ("zzz: 3", "Say it under `note`, or take it away."),
])
def test_a_key_from_elsewhere_finds_its_place(written: str, fix: str, tmp_path: Path) -> None:
    (found,) = reading(f"""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    {written}
""", tmp_path)
    assert found.fix == fix


@pytest.mark.parametrize(("written", "fix"), [
    ("time: 5", "Write `5 min`."),
    ("yield: {scrap: 3}", "Write `3 %`."),
    ("settings: {turns: 3 to 4}", "Write `3 to 4 turns`."),
    ("settings: {turns: 3-4}", "Write `3..4 turns`."),
    ("settings: {bath temperature: 180-190}", "Write `180..190 °C` or `180..190 °F`."),
    ('limits: {width: 1/4" - 3/8"}', "Write `1/4 in..3/8 in`."),
    ("limits: {width: about 1}", "Write `about 1 mm`."),
    ("skill: [grinding]", "Write `grinding` alone."),
    ("hazards: {hazard: heat, word: Warning}", "Write `warning`."),
    ("feel: {sense: finger, good: smooth}", "Write `touch`."),
])
def test_what_is_told_can_be_written_as_it_is_told(written: str, fix: str, tmp_path: Path) -> None:
    (found,) = reading(f"""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    {written}
""", tmp_path)
    assert found.fix == fix


def test_the_right_word_further_down_is_seen(tmp_path: Path) -> None:
    (found,) = reading("""\
=== procedures/foot/grind-foot.yml
title: Grind the foot flat
procedure: grind-foot
steps: Sweep it along the belt.
""", tmp_path)
    assert (found.code, found.fix) == ("kind-unknown", "Put `procedure:` first, so that the file explains itself.")


def test_an_id_is_mended(tmp_path: Path) -> None:
    (found, _) = reading("""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: Break the edge!, do: Draw the edge over the fine belt.}
  - {id: 3rd, do: Wipe it.}
""", tmp_path)
    assert found.fix == "Write `break-the-edge`."


def test_an_empty_key_is_a_question_and_no_error(tmp_path: Path) -> None:
    assert reading("""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
skill:
steps:
  - do: Sweep it along the belt.
    hazards: {hazard: abrasion, word: , avoid: ask}
    limits: {flatness: , width: ask}
    until:
""", tmp_path) == []


def test_a_row_with_a_slip_of_the_pen_is_no_table(tmp_path: Path) -> None:
    found = reading("""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings:
      belt speed:
        by: material
        is:
          zinc: {is: 15..20 m/s, tol: belt-grinder}
          brass: 22
""", tmp_path)
    assert [(f.at.line, f.at.column, f.code) for f in found] == [(9, 34, "key-unknown"), (10, 18, "unit-missing")]
    assert found[0].fix == "Did you mean `tool`?"


def test_a_file_named_twice_wrongly_is_told_once(tmp_path: Path) -> None:
    found = reading("""\
=== procedures/foot/Grind-Foot.yml
procedure: Grind Foot
title: Grind the foot flat
steps: Sweep it along the belt.
""", tmp_path)
    assert [f.code for f in found] == ["id-broken"]


def test_the_second_shop_is_told(tmp_path: Path) -> None:
    (found,) = reading("""\
=== procedures/shop.yml
shop: harbour
title: Harbour lamps
=== procedures/shop/shop.yml
shop: harbour
title: Harbour lamps again
""", tmp_path)
    assert (found.code, found.at.path, found.fix) == (
        "id-twice", "procedures/shop/shop.yml", "Put both into one file.")


def test_every_finding_of_the_reader_is_explained(tmp_path: Path) -> None:
    """All the failing examples in one notebook: no code without its entry in the catalogue."""
    for number, rule in enumerate(BY_CODE.values()):
        if rule.check is None and rule.fails:
            for found in reading(rule.fails, tmp_path / str(number)):
                assert found.code in BY_CODE, found
