"""The checklist on paper: one a sheet, with boxes, lines for initials and dates, and the code to enter it."""

from __future__ import annotations

from pathlib import Path

from expectation import book_of, book_written, expect, page
from procedure_article import words_of

from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.skills.sheet_code import sheet_code, skill_of

FORGING = "the-hands/sheets/forging.md"


def test_the_page_as_it_was_found_good() -> None:
    expect(page(hand_pages, book_of("hook-forge"), FORGING), "checklist-forging")


def test_there_is_a_sheet_for_each_learner_on_the_way_and_one_for_whoever_begins() -> None:
    made = page(hand_pages, book_of("hook-forge"), FORGING).html
    assert made.count('<section class="bl-list bl-one"') == 2
    nils, anybody = made.split('<section class="bl-list bl-one"')[1:]
    assert 'id="for-nils"' in nils and "Nils Berg: Forging" in words_of(nils)
    assert "Learner" in words_of(anybody) and "Begun on" in words_of(anybody)


def test_what_is_signed_already_needs_no_line() -> None:
    made = page(hand_pages, book_of("hook-forge"), FORGING).html
    nils, anybody = made.split('<section class="bl-list bl-one"')[1:]
    assert anybody.count("<span>Initials</span>") == 3
    assert nils.count("<span>Initials</span>") + nils.count('class="bl-list__signed"') == 3
    assert "PH, " in words_of(nils)  # by whom, when, and where it stands


def test_the_code_on_the_sheet_is_the_one_that_sign_takes() -> None:
    book = book_of("hook-forge")
    forging = book.notebook.skills["forging"]
    code = sheet_code(forging)
    assert f"benchlore sign --from-sheet {code}" in words_of(page(hand_pages, book, FORGING).html)
    assert skill_of(code, book.notebook.skills) is forging


def test_who_may_sign_stands_there_with_initials() -> None:
    assert "These may sign: Petra Holm PH." in words_of(page(hand_pages, book_of("hook-forge"), FORGING).html)


def test_an_item_without_an_id_cannot_be_entered_and_says_so() -> None:
    words = words_of(page(hand_pages, book_of("hook-forge"), FORGING).html)
    assert "Straightens a bar. Shown by doing it under the teacher’s eyes. It has no id in the notebook yet" in words


def test_a_skill_without_a_checklist_has_no_sheet(tmp_path: Path) -> None:
    book = book_written("=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n", tmp_path)
    assert [sheet.src_uri for sheet in hand_pages(book) if "sheets/" in sheet.src_uri] == []


def test_it_is_linked_from_the_skill_and_from_the_learner() -> None:
    forge = book_of("hook-forge")
    assert 'href="../sheets/forging.html"' in page(hand_pages, forge, "the-hands/skills/forging.md").html
    assert 'href="../sheets/forging.html#for-nils"' in page(hand_pages, forge, "the-hands/people/nils.md").html
