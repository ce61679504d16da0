"""Sentences of ours with the hardest that a shop may put into them: they stay sentences."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.site import Site
from site_builder.quantity import for_people, parse_cadence, parse_value
from site_builder.skills.initials import initials
from site_builder.views.blocks import Gauge
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import prose
from site_builder.views.rhythm import cadence
from site_builder.views.scope import ProcedureScope
from site_builder.views.step import steps

WORDS = frozenset({"head", "loaf", "stave", "batch", "knife", "bunch", "dozen", "gross", "sheep", "goose", "fly", "box",
                   "journey", "tooth", "ox", "child", "half hide", "score"})
TODAY = date(2026, 3, 2)


@pytest.mark.parametrize(("written", "told"), [
    ("every head", "each head"), ("every 10 heads", "every 10 heads"), ("3 of 50 loaves", "3 of every 50 loaves"),
    ("every 2 knives", "every 2 knives"), ("every 4 teeth", "every 4 teeth"), ("every 2 sheep", "every 2 sheep"),
    ("1 of 10 geese", "1 of every 10 geese"), ("every 2 dozen", "every 2 dozen"), ("every gross", "each gross"),
    ("every other batch", "every 2 batches"), ("every 3 flies", "every 3 flies"),
    ("every 2 journeys", "every 2 journeys"), ("every 6 half hides", "every 6 half hides"),
    ("every 2 children", "every 2 children"),
])  # fmt: skip
def test_how_often_in_the_words_that_the_shop_counts_in(written: str, told: str) -> None:
    assert cadence(parse_cadence(written, WORDS), prose).plain.replace("\u00a0", " ") == told


@pytest.mark.parametrize(("written", "told"), [
    ("1 coats", "1 coat"), ("2 coat", "2 coats"), ("1 loaves", "1 loaf"), ("1 head", "1 head"), ("2 gross", "2 gross"),
    ("0.5 head", "0.5 heads"), ("1..2 heads", "1 to 2 heads"), ("3 geese", "3 geese"), ("2 oxen", "2 oxen"),
    ("about 1 knife per 20 loaves", "about 1 knife per 20 loaves"), ("3 score", "3 score"),
])  # fmt: skip
def test_how_many_in_the_words_that_the_shop_counts_in(written: str, told: str) -> None:
    assert for_people(parse_value(written, WORDS)).main.replace("\u00a0", " ") == told


@pytest.mark.parametrize(("name", "short", "letters"), [
    ("The Old Smith", "The Old Smith", "S"), ("Mr. Karl Weber", "Mr. Karl Weber", "KW"), ("Karl Weber", "Karl", "KW"),
    ("Dr Ann-Kathrin Oss", "Dr Ann-Kathrin Oss", "AKO"), ("J. Pike", "J. Pike", "JP"), ("Uncle Bo", "Uncle Bo", "B"),
    ("Øyvind", "Øyvind", "Ø"),
])  # fmt: skip
def test_nobody_is_cut_to_a_word_that_is_no_name(name: str, short: str, letters: str, tmp_path: Path) -> None:
    write_example(f"=== skills/people.yml\npeople: {{who: {{name: {name}}}, cy: {{name: Cy Rask}}}}\n", tmp_path)
    people_index = PeopleIndex(Site(analysis(tmp_path, TODAY), ()))
    assert people_index.short["who"] == short
    assert initials(name) == letters


HOOP = "=== procedures/cask/drive-hoop.yml\nprocedure: drive-hoop\ntitle: Drive the hoop\n"
SAID = """\
steps:
  - do: Drive it.
    limits:
      gap:
        is: max 2 mm
        said:
          - {who: ann, is: 3 mm, date: 2024-03-01}
          - {who: The old cooper, is: 1 mm}
=== skills/people.yml
people: {ann: {name: Ann Holt}}
"""


def gauges(text: str, folder: Path) -> list[Gauge]:
    write_example(text, folder)
    view = NotebookView(analysis(folder, TODAY))
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    return [block for step in steps(scope) for block in step.blocks if isinstance(block, Gauge)]


def test_a_doubt_that_is_over_is_settled_once_whoever_had_a_say(tmp_path: Path) -> None:
    (gauge,) = gauges(HOOP + SAID, tmp_path)
    told = " ".join(" ".join(line.plain for line in gauge.how).replace("\u00a0", " ").split())
    assert told.count("Settled") == 1
    assert "Ann Holt had said 3 mm 0.118 in on 1 March 2024." in told
    assert "The old cooper had said 1 mm 0.0394 in." in told
