"""People, skills and who taught whom, on the notebook of a small forge."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from expectation import TODAY, book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.book import HANDS, LINEAGE, Book
from site_builder.handbook.pages.roll import NEWEST
from site_builder.handbook.pages.the_hands import hand_sheets
from site_builder.notebook.finding import At, Finding, Level

DRAWING = re.compile(r'<svg class="bl-drawing.*?</svg>', re.DOTALL)


@pytest.fixture
def forge() -> Book:
    return book_of("hook-forge")


def words(html: str) -> str:
    return Markup(html).striptags()


@pytest.mark.parametrize(
    ("src_uri", "name"),
    [
        (HANDS, "hands"),
        (LINEAGE, "lineage"),
        ("the-hands/skills/forging.md", "skill-forging"),
        ("the-hands/people/nils.md", "person-nils"),
        ("the-hands/people/arvid.md", "person-gone"),
    ],
)
def test_the_page_as_it_was_found_good(forge: Book, src_uri: str, name: str) -> None:
    sheet = page(hand_sheets, forge, src_uri)
    expect(replace(sheet, html=DRAWING.sub("<svg></svg>", sheet.html)), name)  # drawings have tests of their own


def test_each_level_leads_to_the_entry_that_gave_it(forge: Book) -> None:
    hands = page(hand_sheets, forge, HANDS).html
    assert 'href="skills/forging.html#sign-off-4"' in hands
    assert 'id="sign-off-4"' in page(hand_sheets, forge, "the-hands/skills/forging.md").html


def test_what_nobody_could_teach_any_more(forge: Book) -> None:
    assert "If Petra stopped tomorrow, forging and tending the fire would have nobody left to teach them." in words(
        page(hand_sheets, forge, HANDS).html)


def test_an_entry_that_was_taken_back_stays_and_says_so(forge: Book) -> None:
    """Nils was signed for the fire, and a week later not any more."""
    html = page(hand_sheets, forge, "the-hands/skills/tending-the-fire.md").html
    assert "Taken back by entry 3." in words(html)
    assert "Takes back entry 2." in words(html)
    assert "bl-shown--done" not in html  # what it showed does not count any more
    assert "Taken back by entry 3." in words(page(hand_sheets, forge, "the-hands/people/nils.md").html)
    assert "tending the fire" not in words(page(hand_sheets, forge, LINEAGE).html)


def test_an_override_stands_on_the_page(forge: Book) -> None:
    skill = words(page(hand_sheets, forge, "the-hands/skills/forging.md").html)
    assert "Without the proof asked for: There was no book then." in skill


def test_the_evidence_of_a_sign_off_can_be_followed(forge: Book) -> None:
    skill = page(hand_sheets, forge, "the-hands/skills/forging.md").html
    assert '<a href="../people/nils.html#practice-2">practice 2</a>' in skill
    assert 'id="practice-2"' in page(hand_sheets, forge, "the-hands/people/nils.md").html


def test_too_young_until_the_birthday(forge: Book) -> None:
    """Born on 14 August 2010: sixteen for the anvil on 14 August 2026, eighteen for the power hammer in 2028."""
    nils = words(page(hand_sheets, forge, "the-hands/people/nils.md").html)
    assert "Not before 14 August 2026 forging: at least 16 years old." in nils
    assert "Not before 14 August 2028 to use power hammer: at least 18 years old." in nils
    assert nils.index("it goes first") < nils.index("Not before 14 August")


@pytest.mark.parametrize(
    ("born", "said"),
    [
        ("2010-03-02", False),  # sixteen today
        ("2010-03-03", True),
        ("2010", True),  # perhaps not before December
        ("2009", False),
    ],
)
def test_the_day_of_the_least_age(tmp_path: Path, born: str, said: bool) -> None:
    assert date(2026, 3, 2) == TODAY
    notebook = (f"=== skills/people.yml\npeople: {{a: {{name: A, born: {born}}}}}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\nage: min 16 y\n")
    html = page(hand_sheets, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert ("Not before" in words(html)) is said


def test_where_no_birth_is_written_nobody_is_taken_for_old_enough(tmp_path: Path) -> None:
    notebook = ("=== skills/people.yml\npeople: {a: Ann}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\nage: min 16 y\n")
    html = page(hand_sheets, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert "It is not written when Ann was born. Ask before anything that has a least age." in words(html)


def test_a_long_book_is_cut_but_what_a_sign_off_rests_on_stays(tmp_path: Path) -> None:
    practice = "".join(f"---\npractice: {n}\nwho: a\ndate: 2025-01-{n:02}\npieces: {n}\n" for n in range(1, 31))
    notebook = (
        "=== skills/people.yml\npeople: {a: Ann, b: {name: Bo, founding: yes}}\n=== skills/sawing.yml\nskill: sawing\n"
        "title: Sawing\n=== skills/records/practice.yml\n" + practice + "=== skills/records/sign-offs.yml\n---\n"
        "sign-off: 1\nwho: b\ndate: 2025-02-01\nlearner: a\nskill: sawing\nlevel: alone\nevidence: practice 3\n"
    )
    html = page(hand_sheets, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert html.count('<li id="practice-') == NEWEST  # the newest eleven beside the sign-off, and number 3
    assert 'id="practice-30"' in html
    assert 'id="practice-3"' in html
    assert 'id="practice-4"' not in html
    assert "30 in the book of practice" in words(html)


def test_two_people_of_one_first_name_keep_their_whole_names(tmp_path: Path) -> None:
    notebook = ("=== skills/people.yml\npeople: {a: Ann Ost, b: Ann Vik, c: Carl Ost}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n")
    html = page(hand_sheets, book_written(notebook, tmp_path), HANDS).html
    assert [name for name in ("Ann Ost", "Ann Vik", "Carl") if f'<th scope="col">{name}</th>' in html] == [
        "Ann Ost", "Ann Vik", "Carl"]


def test_a_large_shop_gets_tables_that_go_on_a_page(tmp_path: Path) -> None:
    people = ", ".join(f"p{n}: Nr{n}" for n in range(14))
    notebook = f"=== skills/people.yml\npeople: {{{people}}}\n=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n"
    assert page(hand_sheets, book_written(notebook, tmp_path), HANDS).html.count("<table") == 3


def test_a_shop_without_people_is_told_where_they_stand(tmp_path: Path) -> None:
    html = page(hand_sheets, book_written("=== procedures/shop.yml\nshop: s\ntitle: S\n", tmp_path), HANDS).html
    assert "<code>skills/people.yml</code>" in html


def test_names_and_notes_are_shown_as_text(tmp_path: Path) -> None:
    notebook = '=== skills/people.yml\npeople: {a: {name: "<b>Ann</b>", note: "<script>x</script>"}}\n'
    html = page(hand_sheets, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert "<script>" not in html
    assert "&lt;b&gt;Ann&lt;/b&gt;" in html


def test_a_page_with_errors_is_marked(forge: Book) -> None:
    wrong = Finding(At("skills/forging.yml", 3, 1), "needs-circle", Level.ERROR, "Forging needs itself.")
    html = page(hand_sheets, replace(forge, findings=(wrong,)), "the-hands/skills/forging.md").html
    assert "Not sound" in html
