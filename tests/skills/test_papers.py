"""Papers: without the one that a skill asks for nobody begins, and what ran out lets the skill rest."""

from __future__ import annotations

import re
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.cli.lessons import lessons
from site_builder.cli.sign import sign
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import HANDS, Site
from site_builder.skills.breach import Article
from site_builder.skills.known import knowledge_of
from site_builder.skills.sealing import seal_book

TODAY = date(2026, 3, 2)

SHOP = """\
=== skills/spraying.yml
skill: spraying
title: Spraying
papers: {paper: Mask fit test, valid: 12 mo}
=== skills/people.yml
people:
  ada: {name: Ada Holm, founding: yes, learning: 8 h/week, papers: {paper: mask fit test, date: 2025-05-01}}
  bo: {name: Bo Berg, learning: 4 h/week}
  cy: {name: Cy Dahl, learning: 4 h/week, papers: PAPERS}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ada
date: 2020-01-10
learner: cy
skill: spraying
level: teaches
"""
TWICE = "[{paper: Mask fit test, date: 2020-01-01}, {paper: Mask fit test, date: 2026-01-01}]"


def shop(folder: Path, papers: str = "{paper: Mask fit test, date: 2024-06-01}", more: str = "") -> Analysis:
    write_example(SHOP.replace("PAPERS", papers) + more, folder)
    return analysis(folder, TODAY)


def told(asked: Analysis, src_uri: str) -> str:
    html = next(sheet.html for sheet in hand_pages(Site(asked, ())) if sheet.src_uri == src_uri)
    return re.sub(r" ([.:;,)])", r"\1", " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())).replace("( ", "(")


@pytest.mark.parametrize(("papers", "since"), [
    ("{paper: Mask fit test, date: 2024-06-01}", date(2025, 6, 1)),
    ("{paper: Mask fit test, date: 2025-03-02}", None),  # good until today
    ("{paper: Mask fit test, date: 2024-06-01, valid: 36 mo}", date(2025, 6, 1)),  # the skill asks for a newer one
    (TWICE, None),  # renewed
    ("{paper: Mask fit test}", None),  # nobody knows since when
    ("[]", None),  # never written down: that is asked
])
def test_what_ran_out_lets_the_skill_rest(papers: str, since: date | None, tmp_path: Path) -> None:
    asked = shop(tmp_path, papers)
    held = asked.holders.level("cy", "spraying")
    assert held is not None
    assert held.rests_since == since
    known = knowledge_of(asked.notebook, asked.route, asked.holders)
    assert ("cy" in known.able["spraying"]) is (since is None)


@pytest.mark.parametrize(("papers", "day", "lawful"), [
    ("{paper: Mask fit test, date: 2024-06-01}", "2025-06-01", True),
    ("{paper: Mask fit test, date: 2024-06-01}", "2025-06-02", False),
    ("{paper: Mask fit test, date: 2026-01-01}", "2025-06-02", True),  # of the time before nobody can tell
    (TWICE, "2025-06-02", False),  # renewed only afterwards
])
def test_who_let_it_run_out_signs_nothing_meanwhile(papers: str, day: str, lawful: bool, tmp_path: Path) -> None:
    signed = f"---\nsign-off: 2\nwho: cy\ndate: {day}\nlearner: bo\nskill: spraying\nlevel: beside\n"
    breaches = shop(tmp_path, papers, signed).law.breaches
    assert [breach.article for breach in breaches] == ([] if lawful else [Article.SIGNER])
    if not lawful:
        assert breaches[0].message.startswith("“Mask fit test” of `cy` was good until 20")


def test_the_pages_say_what_rests_and_until_when(tmp_path: Path) -> None:
    asked = shop(tmp_path)
    cy = told(asked, "the-hands/people/cy.md")
    assert "Spraying (rests since 1 June 2025)" in cy
    assert "Rests since 1 June 2025: spraying. It holds again when “Mask fit test” is renewed." in cy
    assert "Mask fit test 1 June 2024 1 June 2025; lapsed spraying" in cy
    assert "Cy Dahl rests since 1 June 2025." in told(asked, "the-hands/skills/spraying.md")
    assert "teaches, but rests" in told(asked, HANDS)


def test_a_paper_that_nobody_wrote_down_is_asked_for_on_the_page(tmp_path: Path) -> None:
    assert "Mask fit test none is written spraying" in told(shop(tmp_path, "[]"), "the-hands/people/cy.md")


def test_the_plan_and_the_learner_are_told_that_the_paper_comes_first(tmp_path: Path) -> None:
    signed = "---\nsign-off: 2\nwho: ada\ndate: 2026-01-02\nlearner: bo\nskill: spraying\nlevel: beside\n"
    asked = shop(tmp_path, TWICE, signed)
    plan = CliRunner().invoke(lessons, ["-n", str(tmp_path), "--today", TODAY.isoformat()])
    said = " ".join(plan.output.split())
    assert "then alone. The paper comes first: Mask fit test, of which none is written." in said
    assert asked.holders.level("bo", "spraying") is not None
    begins = shop(tmp_path / "new", TWICE)
    assert ("With Cy Dahl: spraying. Before spraying: the paper comes first: Mask fit test, of which none is written."
            in told(begins, "the-hands/people/bo.md"))


def test_who_signs_is_told_that_the_paper_is_wanting(tmp_path: Path) -> None:
    shop(tmp_path, TWICE)
    seal_book(tmp_path, "sign-off", {})
    made = CliRunner().invoke(sign, [
        "-n", str(tmp_path), "--who", "cy", "--learner", "bo", "--skill", "spraying", "--level", "beside",
        "--date", "2026-03-01", "--today", TODAY.isoformat(), "--yes"])
    assert made.exit_code == 0, made.output
    assert "paper: “Mask fit test” of Bo Berg (bo) is not written in people.yml" in made.output
