"""The page of a part: what it asks, what is lost on its way, where it goes."""

from pathlib import Path

from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.part import part_pages


def text_of(html: str) -> str:
    return Markup(html).striptags().replace("\u00a0", " ")


def test_a_part_that_is_made() -> None:
    expect(page(part_pages, book_of("hand-bell"), "the-work/bell/index.md"), "part-made")


def test_a_part_that_is_bought() -> None:
    expect(page(part_pages, book_of("hand-bell"), "the-work/handle/index.md"), "part-bought")


def test_time_and_losses_are_those_of_its_way() -> None:
    """Casting takes two people 12 min, turning one 20 to 24 min: 44 to 48 min of hands. Of 100 cast 90 are
    good, of 90 turned 5 in 100 are lost: 85.5. Tuning does not tell a time, and engraving is done outside."""
    said = text_of(page(part_pages, book_of("hand-bell"), "the-work/bell/index.md").html)
    assert "44 to 48 min, setting up and waiting not counted" in said
    assert "About 86 come to the end of this way, by the losses written. Tune the bell does not tell" in said


def test_a_whole_counts_its_parts_too() -> None:
    """6 min to hang it and 44 to 48 min in the bell."""
    said = text_of(page(part_pages, book_of("hand-bell"), "the-work/hand-bell/index.md").html)
    assert "About 6 min, setting up" in said
    assert "50 to 54 min of hands in one, without what is not yet told" in said
    assert "2 × Pin, brass" in said


def test_a_size_nobody_has_told_leads_to_its_question() -> None:
    sheet = page(part_pages, book_of("hand-bell"), "the-work/bell/index.md")
    assert 'href="../../still-unwritten.html#q-procedures-shop-yml-19">Not told yet</a>' in sheet.html


def test_nothing_is_said_where_nothing_is_known(tmp_path: Path) -> None:
    text = "=== procedures/shop.yml\nshop: s\ntitle: S\nparts: {peg: Peg}\n"
    sheet = page(part_pages, book_written(text, tmp_path), "the-work/peg/index.md")
    assert "<h2" not in sheet.html
    assert "bl-facts" not in sheet.html
