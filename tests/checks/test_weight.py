"""What hangs on a question: every kind of question has its weight, and what can hurt comes first."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.interview import interview
from site_builder.checks.rules import RULES
from site_builder.checks.weight import OF_CODE, Weight, weighed
from site_builder.notebook.finding import Level
from tests.cli.test_check import benchlore

TODAY = date(2026, 3, 2)
SHOP = {
    "procedures/shop.yml": "shop: cooperage\ntitle: The cooperage\nformat: 1\naccident: [Press on it and call.]\n",
    "procedures/raise-cask.yml": """procedure: raise-cask
title: Raise the cask
skill: raising
steps:
  - id: fire
    do: Stand it over the cresset.
    limits:
      heat of the staves: {is: max 80 °C, check: {when: each cask}}
    until: ask
""",
    "procedures/hoop-cask.yml": "procedure: hoop-cask\ntitle: Hoop the cask\nskill: hooping\nsteps: [Drive it.]\n",
    "skills/raising.yml": "skill: raising\ntitle: Raising\ncovers: raise-cask\n",
    "skills/hooping.yml": "skill: hooping\ntitle: Hooping\ncovers: hoop-cask\n",
    "skills/people.yml": "people:\n  una: {name: Una Holt, born: 1950-01-01, founding: yes}\n"
                         "  per: {name: Per Holt, born: 1980-01-01, founding: yes}\n",
    "tools/machines/windlass.yml": "machine: windlass\ntitle: Windlass\nhazards: ask\n",
}


def written(root: Path) -> Path:
    for name, text in SHOP.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, "utf-8")
    return root


def test_every_kind_of_question_has_its_weight_and_nothing_else_has_one() -> None:
    assert OF_CODE.keys() == {rule.code for rule in RULES if rule.level is Level.QUESTION}


def test_what_can_hurt_comes_first_also_where_it_was_answered_with_ask(tmp_path: Path) -> None:
    surveyed = analysis(written(tmp_path), TODAY)
    found = weighed(surveyed, interview(surveyed, examine(surveyed)))
    assert [one.weight for one in found] == sorted(one.weight for one in found)
    grave = {(one.question.code, one.question.about) for one in found if one.weight is Weight.HARM}
    assert ("value-ask", "windlass") in grave and ("hazards-asked", "raise-cask") in grave
    spoiled = {one.question.code for one in found if one.weight is Weight.SPOILED}
    assert {"side-unsaid", "yield-asked"} <= spoiled
    assert ("maker-unsaid", Weight.REST) in {(one.question.code, one.weight) for one in found}


def test_check_tells_the_ten_weightiest_in_words_and_all_on_demand(tmp_path: Path) -> None:
    root = written(tmp_path)
    done = benchlore("check", "--today", "2026-03-02", cwd=root).stdout
    assert "question[" not in done
    asked = done[done.index("To be asked: ") :].split("\n")
    assert " on what can hurt somebody, " in asked[0]
    assert asked[1].startswith("The 10 weightiest; `benchlore check --all`")
    assert [line[:4] for line in asked if line[:3].strip().isdigit()] == [f"{n:>3}." for n in range(1, 11)]
    everything = benchlore("check", "--all", "--today", "2026-03-02", cwd=root).stdout
    assert everything.count("question[") > 10 and "To be asked" not in everything
    assert "question[" in benchlore("check", "--only", "question", cwd=root).stdout


def test_a_sitting_is_cut_to_the_time_there_is(tmp_path: Path) -> None:
    root = written(tmp_path)
    by_time = benchlore("questions", "--minutes", "13", "--today", "2026-03-02", cwd=root).stdout
    assert by_time.startswith("\nOn what can hurt somebody\n  1. ") and "4 questions of " in by_time
    assert "2 questions of " in benchlore("questions", "--weightiest", "2", cwd=root).stdout
    assert "1 question of " in benchlore("questions", "--minutes", "1", cwd=root).stdout
