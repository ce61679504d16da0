"""``benchlore season`` on a small shop: asked, kept, looked through, laid beside other seasons and what was done."""

from __future__ import annotations

import re
import shutil
from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.cli.season import season
from site_builder.handbook.pages.season import season_pages
from site_builder.handbook.site import Site
from site_builder.plans.wanted import wants
from site_builder.season import engine
from tests.plans.hinges import SHOP

TODAY = date(2027, 2, 1)


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Result]:
    """The shop with its season planned."""
    root = tmp_path_factory.mktemp("hinges")
    write_example(SHOP, root)
    return root, run(root, "plan", "spring", "--effort", "1")


def run(root: Path, *words: str, today: date = TODAY) -> Result:
    return CliRunner().invoke(season, [*words, "-n", str(root), "--today", str(today)])


def test_the_answer_is_one_sentence_with_its_reason_and_what_it_stands_on(planned: tuple[Path, Result]) -> None:
    _, told = planned
    assert told.exit_code == 0, told.output
    assert re.search(r"^Yes: 40 by 30 April 2027;", told.stdout, re.MULTILINE)
    assert "Played a thousand times" in told.stdout
    assert "hands for “Punching”" in told.stdout or "hours of Ada Ost" in told.stdout
    assert "It stands on this" in told.stdout


def test_the_file_is_read_by_the_loader_and_can_be_lived(planned: tuple[Path, Result]) -> None:
    root, _ = planned
    known = analysis(root, TODAY)
    assert not [one for one in known.reading if "seasons" in one.at.path]
    kept = known.notebook.seasons["spring-planned-2027-02-01"]
    assert kept.order == "spring"
    assert {str(one.who) for one in kept.work if one.who is not None} == {"ada", "bo"}
    looked = run(root, "check", "procedures/seasons/spring-planned-2027-02-01.yml")
    assert looked.exit_code == 0, looked.output
    assert "none breaks a rule" in looked.stdout


def test_what_the_notebook_says_is_in_the_problem(planned: tuple[Path, Result]) -> None:
    wanted = wants(analysis(planned[0], TODAY), "spring")
    ada, bo = wanted.problem.hand("ada"), wanted.problem.hand("bo")
    assert wanted.days.first == date(2027, 3, 1)
    assert ada.seconds[:5] == (4 * 3_600,) * 5
    assert not any(ada.seconds[wanted.days.number(date(2027, 3, 8)):wanted.days.number(date(2027, 3, 13))])
    assert bo.seconds[:7] == (4 * 3_600, 4 * 3_600, 0, 0, 0, 0, 0)
    assert not bo.seconds[wanted.days.number(date(2027, 3, 29))]
    blue = wanted.problem.work("blue-leaf")
    assert blue.lots is not None
    assert (blue.lots.least, blue.lots.most) == (10, 60)
    assert {wanted.days.on(day).weekday() for day in blue.lots.days} == {2}
    assert wanted.problem.work("pin-hinge").hands == 2
    assert {link.least for link in wanted.problem.links if link.before == "blue-leaf"} == {5}


def test_a_plan_that_somebody_changed_is_told_line_by_line(planned: tuple[Path, Result], tmp_path: Path) -> None:
    root, _ = planned
    write_example(SHOP, tmp_path)
    kept = (root / "procedures/seasons/spring-planned-2027-02-01.yml").read_text("utf-8")
    spoilt = kept.replace("who: ada, does: punch-leaf", "who: bo, does: punch-leaf", 1)
    assert spoilt != kept
    (tmp_path / "procedures/seasons").mkdir()
    (tmp_path / "procedures/seasons/spring-planned-2027-02-01.yml").write_text(spoilt, "utf-8")
    told = run(tmp_path, "check", "spring")
    assert told.exit_code == 1
    assert "Bo Ost may not do “Punch the leaf” on that day." in " ".join(told.stdout.split())


def test_a_plan_is_never_written_over(planned: tuple[Path, Result], tmp_path: Path) -> None:
    write_example(SHOP, tmp_path)
    shutil.copytree(planned[0] / "procedures/seasons", tmp_path / "procedures/seasons")
    assert run(tmp_path, "plan", "spring", "--effort", "1").exit_code == 0
    names = sorted(one.name for one in (tmp_path / "procedures/seasons").iterdir())
    assert names == ["spring-planned-2027-02-01-2.yml", "spring-planned-2027-02-01.yml"]
    first, second = ((tmp_path / "procedures/seasons" / name).read_text("utf-8") for name in names)
    assert first.replace("-01-2", "-01") == second  # and the same notebook gives the same plan


def test_what_if_is_one_sentence_each(planned: tuple[Path, Result]) -> None:
    told = run(planned[0], "what-if", "spring", "--without", "ada", "--from", "2027-03-15", "--to", "2027-03-19")
    assert told.exit_code == 0, told.output
    assert "As it stands: the last is packed on" in told.stdout
    assert "Without Ada Ost from 15 March 2027 to 19 March 2027: the last is packed on" in " ".join(told.stdout.split())
    never = run(planned[0], "what-if", "spring", "--without", "ada")
    assert "it cannot be done within these months; that is proven" in " ".join(never.stdout.split())
    assert run(planned[0], "what-if", "spring").exit_code == 2
    assert "is nobody in skills/people.yml" in run(planned[0], "what-if", "spring", "--without", "eve").output


def test_the_next_days_are_told_by_the_quarter_hour(planned: tuple[Path, Result]) -> None:
    """Two who pin one hinge begin and end together, and nobody is at two things at once."""
    told = run(planned[0], "hours", "spring", "--days", "60")
    assert told.exit_code == 0, told.output
    lines = re.findall(r"^ +(\d+):(\d+) to +(\d+):(\d+)  (Ada|Bo) Ost: (.+)$|^(\w+day, .+)$", told.stdout, re.MULTILINE)
    days: dict[str, dict[str, list[tuple[int, int, str]]]] = {}
    for a, b, c, d, who, what, day in lines:
        if day:
            here = days.setdefault(day, {})
        else:
            here.setdefault(who, []).append((int(a) * 60 + int(b), int(c) * 60 + int(d), what))
    assert len(days) > 3
    for people in days.values():
        for spans in people.values():
            assert all(one[1] <= two[0] for one, two in pairwise(spans))
        second = {span[:2] for spans in people.values() for span in spans if span[2].endswith("second pair of hands")}
        led = {span[:2] for spans in people.values() for span in spans if span[2].startswith("Pin the hinge, ")}
        assert second <= led
    assert "Nothing is planned in the 14 days" in run(planned[0], "hours", "spring", "--from", "2027-08-01").stdout


def test_what_was_done_is_laid_beside_the_plan(planned: tuple[Path, Result], tmp_path: Path) -> None:
    practice = """\
=== skills/records/practice.yml
---
practice: 1
who: ada
date: 2027-03-01
procedure: punch-leaf
pieces: 200
"""
    write_example(SHOP + practice, tmp_path)
    (tmp_path / "procedures/seasons").mkdir()
    name = "procedures/seasons/spring-planned-2027-02-01.yml"
    (tmp_path / name).write_text((planned[0] / name).read_text("utf-8"), "utf-8")
    told = run(tmp_path, "follow", "spring", today=date(2027, 3, 3))
    assert told.exit_code == 0, told.output
    assert re.search(r"Punch the leaf +\d+ +200 +80 +\d+ days ahead", told.stdout)


def test_impossible_is_proven_with_the_wishes_that_cannot_all_be_kept(tmp_path: Path) -> None:
    write_example(SHOP.replace("due: 2027-04-30", "due: 2027-03-12"), tmp_path)
    told = run(tmp_path, "plan", "spring", "--effort", "1", "--dry")
    assert told.exit_code == 0, told.output
    assert "No, not 40 by 12 March 2027: that is proven;" in " ".join(told.stdout.split())
    assert "What cannot all be kept" in told.stdout
    assert not (tmp_path / "procedures/seasons").exists()


@pytest.mark.parametrize(("old", "new", "says"), [
    ("due: 2027-04-30\n", "", "does not say by when"),
    ("due: 2027-04-30", "due: 2027-01-30", "nothing can begin before"),
    ("pieces: 40\n", "", "does not say what, or how many"),
    ("due: 2027-04-30\n", "due: 2027-04-30\nmade: {hinge: 40}\n", "is made already"),
])
def test_what_cannot_be_planned_says_which_line_to_write(tmp_path: Path, old: str, new: str, says: str) -> None:
    write_example(SHOP.replace(old, new), tmp_path)
    told = run(tmp_path, "plan", "spring")
    assert told.exit_code == 1
    assert says in told.output
    assert "Traceback" not in told.output


def test_without_the_engine_it_says_how_to_get_it(
    planned: tuple[Path, Result], monkeypatch: pytest.MonkeyPatch,
) -> None:
    def missing(_name: str) -> None:
        raise ImportError

    monkeypatch.setattr(engine, "import_module", missing)
    told = run(planned[0], "plan", "spring")
    assert told.exit_code == 1
    assert "pip install 'benchlore[season]'" in told.output


def test_the_page_says_the_answer_first_and_backs_it_with_tables(planned: tuple[Path, Result]) -> None:
    known = analysis(planned[0], TODAY)
    page, wall, *weeks = season_pages(Site(known, ()))
    assert "Yes: 40 by 30 April 2027; by this plan the last is packed on" in page.html
    assert "scarcest are the hours of" in page.html
    assert "Hours for orders, week by week" in page.html
    assert "<svg" in page.html
    assert "To be ordered" in page.html
    assert "Screw" in page.html
    assert "☐" in wall.html
    assert "Ada Ost" in wall.html
    assert [one.title for one in weeks] == ["Ada’s weeks", "Bo’s weeks"]
    assert "Wed 3 Mar" in weeks[0].html
    assert "Punch the leaf" in weeks[0].html


def test_the_page_tells_of_machines_as_of_people(planned: tuple[Path, Result]) -> None:
    page = next(season_pages(Site(analysis(planned[0], TODAY), ())))
    assert ">Press</text>" in page.html
    assert "Hours at each machine" in page.html


def test_a_what_if_is_kept_in_the_plan_and_shown_on_its_page(planned: tuple[Path, Result], tmp_path: Path) -> None:
    write_example(SHOP, tmp_path)
    words = ("what-if", "spring", "--pieces", "60", "--keep")
    assert "There is no plan to keep it in" in run(tmp_path, *words).output
    (tmp_path / "procedures/seasons").mkdir()
    name = "procedures/seasons/spring-planned-2027-02-01.yml"
    before = (planned[0] / name).read_text("utf-8")
    (tmp_path / name).write_text(before, "utf-8")
    for _ in range(2):
        assert run(tmp_path, *words).exit_code == 0
    known = analysis(tmp_path, TODAY)
    kept = known.notebook.seasons["spring-planned-2027-02-01"].what_if
    assert len(kept) == 2
    assert all(str(one).startswith("Asked on 1 February 2027. 60 pieces: the last is packed on") for one in kept)
    lines = (tmp_path / name).read_text("utf-8").splitlines()
    assert [one for one in lines if one in before.splitlines()] == before.splitlines()
    assert "60 pieces: the last is packed on" in next(season_pages(Site(known, ()))).html


@pytest.mark.parametrize(("written", "instead", "told"), [
    ("time: {setup: 30 min, each: 10 min}", "time: {setup: 30 min, each: 7 h}",
     "One piece of “Punch the leaf”, with its load and what gets ready, takes 7 h 30 min, and the longest day of those "
     "who may do it has"),
    ("hands: {count: 2,", "hands: {count: 9,",
     "“Pin the hinge” takes 9 people at once, and of those who may do it or help only"),
])
def test_what_no_day_can_hold_is_told_and_not_called_proven(
    written: str, instead: str, told: str, tmp_path: Path
) -> None:
    write_example(SHOP.replace(written, instead), tmp_path)
    for words in (("plan", "spring"), ("what-if", "spring", "--pieces", "30")):
        asked = run(tmp_path, *words)
        assert asked.exit_code == 1 and told in " ".join(asked.output.split()) and "proven" not in asked.output
    assert not (tmp_path / "procedures" / "seasons").exists()
