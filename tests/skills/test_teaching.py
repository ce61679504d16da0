"""How many hours of teaching a skill takes: as the shop says, else as its book of practice, else assumed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from markupsafe import Markup

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.cli.lessons import lessons
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import LESSONS as LESSONS_PAGE
from site_builder.handbook.site import Site
from site_builder.skills.teaching import LESSONS, Basis, Teaching, teaching_of

TODAY = date(2026, 3, 2)

SHOP = """\
=== procedures/saw-board.yml
procedure: saw-board
title: Saw the board
skill: sawing
time: {each: TIME}
steps: Saw it.
=== procedures/saw-curve.yml
procedure: saw-curve
title: Saw the curve
skill: sawing
time: {each: 5 min}
steps: Saw it.
=== skills/sawing.yml
skill: sawing
title: Sawing
WRITTEN
=== skills/people.yml
people:
  ada: {name: Ada Holm, founding: yes, learning: 8 h/week}
  bo: {name: Bo Berg, born: 2000, learning: 4 h/week}
  cy: {name: Cy Dahl, born: 1990, left: 2020}
=== skills/records/practice.yml
"""


def practised(number: int, who: str, level: str, pieces: int, took: str, procedure: str = "saw-board") -> str:
    return (f"---\npractice: {number}\nwho: {who}\ndate: 2019-01-{number:02}\nprocedure: {procedure}\nlevel: {level}\n"
            f"pieces: {pieces}\n{f'took: {took}' if took else ''}\n")


CY = [("cy", "beside", 5, "60 min"), ("cy", "beside", 5, "45 min"), ("cy", "beside", 10, "70 min"),
      ("cy", "within call", 10, "62 min"), ("cy", "alone", 20, "106 min")]
"""Twelve minutes a board at first, a little over five at the end: 50 boards in not quite six hours."""


def shop(
    folder: Path, *practice: tuple[str, str, int, str] | tuple[str, str, int, str, str],
    written: str = "", time: str = "5 min",
) -> Analysis:
    book = "".join(practised(number, *one) for number, one in enumerate(practice, 1))
    write_example(SHOP.replace("WRITTEN", written).replace("TIME", time) + book, folder)
    return analysis(folder, TODAY)


def sawing(asked: Analysis) -> Teaching:
    return teaching_of(asked.law.evidence, TODAY)["sawing"]


def test_what_the_skill_says_goes_before_what_the_books_say(tmp_path: Path) -> None:
    found = sawing(shop(tmp_path, *CY, written="lessons: 20..30 h"))
    assert (found.basis, found.minutes) == (Basis.WRITTEN, 25 * 60)


def test_where_nothing_is_told_a_week_is_assumed(tmp_path: Path) -> None:
    found = sawing(shop(tmp_path))
    assert (found.basis, found.minutes) == (Basis.ASSUMED, LESSONS)


def test_until_the_board_takes_the_time_that_is_told_for_it(tmp_path: Path) -> None:
    """Five minutes are reached a little after the fifty boards that Cy made."""
    found = sawing(shop(tmp_path, *CY))
    (cy,) = found.learned
    assert found.basis is Basis.PRACTICE
    assert cy.quick
    assert 40 < cy.pieces < 70
    assert 5 * 60 < found.minutes < 8 * 60
    assert found.low is not None
    assert found.high is not None
    assert found.low < found.minutes < found.high
    assert found.unpractised == ("saw-curve",)


def test_where_no_time_is_told_the_pieces_of_the_proof_count(tmp_path: Path) -> None:
    found = sawing(shop(tmp_path, *CY, written="proof: {pieces: 50}", time="ask"))
    (cy,) = found.learned
    assert (cy.pieces, cy.quick) == (50, False)
    assert found.minutes == pytest.approx(343, rel=0.05)  # what the fifty boards took


def test_where_neither_is_told_nobody_knows_when_it_is_learned(tmp_path: Path) -> None:
    assert sawing(shop(tmp_path, *CY, time="ask")).basis is Basis.ASSUMED


def test_who_could_do_it_alone_when_the_book_begins_has_not_learned_it_there(tmp_path: Path) -> None:
    masters = [("cy", "alone", pieces, took) for _, _, pieces, took in CY]
    assert sawing(shop(tmp_path, *masters)).basis is Basis.ASSUMED


def test_three_entries_with_a_time_are_the_least(tmp_path: Path) -> None:
    assert sawing(shop(tmp_path, *CY[:2])).basis is Basis.ASSUMED
    assert sawing(shop(tmp_path / "more", *CY[:3])).basis is Basis.PRACTICE


def test_work_that_is_done_and_that_nobody_was_seen_to_learn_leaves_it_open(tmp_path: Path) -> None:
    """Curves are sawn too, by somebody who could already: how long that takes to learn, the book does not tell."""
    assert sawing(shop(tmp_path, *CY, ("ada", "alone", 10, "50 min", "saw-curve"))).basis is Basis.ASSUMED


def test_of_two_learners_the_middle_and_from_the_quickest_to_the_slowest(tmp_path: Path) -> None:
    slower = [("bo", level, pieces, f"{int(took.split()[0]) + 2 * pieces} min") for _, level, pieces, took in CY]
    cy, both = sawing(shop(tmp_path / "one", *CY)), sawing(shop(tmp_path / "two", *CY, *slower))
    assert both.minutes > cy.minutes
    assert both.low == cy.low
    assert [one.person for one in both.learned] == ["cy", "bo"]


def test_the_plan_takes_these_hours_and_says_so(tmp_path: Path) -> None:
    asked = shop(tmp_path, *CY, written="proof: {pieces: 50}", time="ask")
    page = next(sheet for sheet in hand_pages(Site(asked, ())) if sheet.src_uri == LESSONS_PAGE)
    told = " ".join(Markup(page.html).striptags().split())
    assert "Sawing: Bo from Ada 5.5 h of lessons" in told
    assert ("How many hours of teaching sawing takes is reckoned from the book of practice. About 5.5 h, by the "
            "learning curve of Cy. Somewhere from") in told
    assert "Saw the board: the 50 pieces of the proof, at the times of the curve." in told
    assert "Nothing stands in the book of practice of saw the curve, and nothing is counted for it." in told
    command = CliRunner().invoke(lessons, ["-n", str(tmp_path), "--today", TODAY.isoformat()])
    assert "is reckoned from the book of practice. About 5.5 h, by the" in " ".join(command.output.split())


def test_hours_that_nobody_can_tell_at_most(tmp_path: Path) -> None:
    """Three entries, nearly alike: the curve may be flat for all that is known."""
    asked = shop(tmp_path, *(("cy", "beside", 10, took) for took in ("55 min", "50 min", "52 min")))
    page = next(sheet for sheet in hand_pages(Site(asked, ())) if sheet.title == "Sawing")
    assert "how long at most cannot be told yet" in page.html
