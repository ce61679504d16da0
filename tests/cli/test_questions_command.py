"""``benchlore questions``: the interview sheet on the terminal."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.checks.example import write_example
from site_builder.cli.questions import questions

SHOP = """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
skill: grinding
steps: Sweep it along the belt.
questions: How soon must it be filled?
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
skill: painting
steps: Spray it.
=== skills/grinding.yml
skill: grinding
title: Grinding
=== skills/painting.yml
skill: painting
title: Painting
=== skills/people.yml
people:
  edda: {name: Edda Corvane, born: 1958, founding: true}
  tilde: {name: Tilde Marrash, born: 1984}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: tilde
skill: painting
level: teaches
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_example(SHOP, tmp_path)
    return tmp_path


def run(folder: Path, *arguments: str) -> str:
    result = CliRunner().invoke(questions, ["-n", str(folder), "--today", "2026-11-24", *arguments])
    assert result.exit_code == 0, result.output
    return result.output


def refused(folder: Path, *arguments: str) -> str:
    result = CliRunner().invoke(questions, ["-n", str(folder), *arguments])
    assert result.exit_code == 2
    return result.output


def test_the_oldest_is_asked_first_and_each_question_says_where_the_answer_goes(folder: Path) -> None:
    output = run(folder)
    assert output.index("Edda Corvane\n====") < output.index("Tilde Marrash\n====")
    assert "How soon must it be filled?\n     procedures/foot/grind-foot.yml:5\n" in output


def test_a_reason_is_given_once(folder: Path) -> None:
    output = " ".join(run(folder, "--no-probes").split())
    assert output.count("What do beginners get wrong") == 2
    assert output.count("they are what a teacher is for") == 1


def test_probes_are_printed_and_can_be_left_out(folder: Path) -> None:
    assert "And while you sit together:" in run(folder)
    assert "And while you sit together:" not in run(folder, "--no-probes")


def test_one_person_alone(folder: Path) -> None:
    output = run(folder, "--whom", "tilde")
    assert "Paint the foot" in output
    assert "Grind the foot flat" not in output


def test_one_thing_alone_is_counted(folder: Path) -> None:
    output = run(folder, "--about", "grinding", "--no-probes")
    assert output.rstrip().endswith("questions about 1 thing.")
    assert "Grind the foot flat" not in output


@pytest.mark.parametrize(
    ("option", "value", "message"),
    [
        ("--whom", "gerda", "`gerda` is nobody in skills/people.yml: edda, tilde."),
        ("--about", "polish-foot", "`polish-foot` is no procedure, tool, material, skill or part of this notebook."),
    ],
)
def test_a_slip_of_the_pen_is_told(option: str, value: str, message: str, folder: Path) -> None:
    assert message in " ".join(refused(folder, option, value).split())


def test_a_folder_without_a_notebook_is_told(tmp_path: Path) -> None:
    assert "There is no notebook in" in refused(tmp_path)
