"""What a telling gives rise to is written as a careful hand would, and nothing that stood there is lost."""

from __future__ import annotations

import shutil
from datetime import date, datetime
from pathlib import Path

import pytest

from site_builder.amend import Amendment, Written, look_up, tree_in, write
from site_builder.amend.telling import lay_aside, open_again, said_otherwise, told_at
from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.quantity import parse_value
from site_builder.tellings.contradiction import contradicts

NOTEBOOK = Path(__file__).parent.parent / "notebooks/telling"
TELLING, WORK = "procedures/tellings/soaking.yml", "procedures/weave-sides.yml"
TIME = ("steps", 0, "limits", "time in the trough")
NOW = datetime(2026, 11, 24, 9, 0)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shutil.copytree(NOTEBOOK, tmp_path / "shop")
    return tmp_path / "shop"


def written(shop: Path, amendment: Amendment) -> Analysis:
    assert isinstance(write(shop, amendment, "tor", NOW), Written)
    return analysis(shop, date(2026, 11, 24))


def test_a_sentence_is_laid_aside_and_opened_again(shop: Path) -> None:
    before = (shop / TELLING).read_text("utf-8")
    surveyed = written(shop, lay_aside(TELLING, tree_in(shop, TELLING), ["c005", "c001"]))
    assert surveyed.coverage["soaking"].of("open") == ()
    assert (shop / TELLING).read_text("utf-8") == before.replace("[c001]", "[c001, c005]")
    surveyed = written(shop, open_again(TELLING, tree_in(shop, TELLING), ["c005"]))
    assert [cue.id for cue in surveyed.coverage["soaking"].of("open")] == ["c005"]
    assert (shop / TELLING).read_text("utf-8") == before


def test_an_entry_keeps_both_moments_at_which_it_was_told(shop: Path) -> None:
    tree = tree_in(shop, WORK)
    assert tree is not None
    surveyed = written(shop, told_at(WORK, ("steps", 0), look_up(tree, ("steps", 0)) or "", "soaking#t=16,19", "do"))
    assert surveyed.coverage["soaking"].of("open") == ()
    step = surveyed.notebook.procedures["weave-sides"].steps[0]
    assert [str(one) for one in step.told] == ["soaking#t=4.5,8", "soaking#t=16,19"]


def test_what_is_said_otherwise_stands_beside_and_is_asked(shop: Path) -> None:
    tree = tree_in(shop, WORK)
    assert tree is not None
    was = look_up(tree, TIME)
    assert was is not None
    amendment = said_otherwise(WORK, TIME, was, "1 d", who="mab", told="soaking#c003", date="2026-09-14")
    surveyed = written(shop, amendment)
    limit = surveyed.notebook.procedures["weave-sides"].steps[0].limits["time in the trough"][0]
    assert [(str(one.written), str(one.who or "")) for one in limit.said] == [("about 1 h", ""), ("1 d", "mab")]
    assert [str(one) for one in limit.said[0].told] == ["soaking#t=8,12"]
    assert [f.code for f in examine(surveyed) if f.code == "value-disputed"] == ["value-disputed"]


@pytest.mark.parametrize(("stands", "said", "expected"), [
    ("20 s", "about 20 s", False), ("20 s", "about 10 s", True), ("aim 20 s; min 15; max 30", "25 s", False),
    ("aim 20 s; min 15; max 30", "40 s", True), ("max 10 mm", "max 12 mm", True), ("max 10 mm", "9 mm", False),
    ("max 1 in", "25 mm", False), ("min 2 h", "under 1 h", True), ("20 s", "3 mm", None), ("matt", "3 mm", None),
    ("ask", "3 mm", None), ("20 s", "0.5 min", True),
])
def test_what_cannot_hold_together(stands: str, said: str, expected: bool | None) -> None:
    assert contradicts(parse_value(stands), parse_value(said)) is expected
