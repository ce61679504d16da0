"""Every rule of the catalogue runs its own two examples."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.rule import Rule
from site_builder.checks.rules import RULES

TODAY = date(2026, 11, 24)

WITHOUT_EXAMPLE = ("rule-crashed",)
"""What no notebook is known to bring about; shown in test_reading_rules.py with a rule that fails."""

FAILING = [rule for rule in RULES if rule.code not in WITHOUT_EXAMPLE]


def findings_of(example: str, folder: Path) -> list:
    write_example(example, folder)
    return examine(analysis(folder, TODAY))


@pytest.mark.parametrize("rule", FAILING, ids=lambda rule: rule.code)
def test_the_failing_example_is_found_at_its_marks(rule: Rule, tmp_path: Path) -> None:
    marks = write_example(rule.fails, tmp_path)
    assert marks, "a failing example marks at least one place"
    found = [f for f in examine(analysis(tmp_path, TODAY)) if f.code == rule.code]
    assert [f.at for f in found] == marks
    assert all(f.level is rule.level and f.message and f.fix for f in found)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_the_passing_example_is_not_found(rule: Rule, tmp_path: Path) -> None:
    found = findings_of(rule.passes, tmp_path)
    assert [f for f in found if f.code == rule.code] == []
    assert [f for f in found if f.code == "rule-crashed"] == []


def test_a_code_stands_once_in_the_catalogue() -> None:
    codes = [rule.code for rule in RULES]
    assert sorted(set(codes)) == sorted(codes)
