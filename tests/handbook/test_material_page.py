"""The page of a material: its sheet outranks it, and what it must never meet stands on both pages."""

from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page
from procedure_article import words_of

from site_builder.handbook.pages.material import material_pages


def test_the_page_as_it_was_found_good() -> None:
    expect(page(material_pages, book_of("hand-bell"), "the-tools/materials/bell-bronze.md"), "material")


def test_two_that_keep_apart_both_say_so() -> None:
    """Only the bronze has it written down."""
    oil = page(material_pages, book_of("hand-bell"), "the-tools/materials/cutting-oil.md").html
    assert 'id="apart"' in oil
    assert "Bell bronze" in oil


def test_a_hazardous_material_without_a_sheet_sends_the_reader_for_it() -> None:
    oil = page(material_pages, book_of("hand-bell"), "the-tools/materials/cutting-oil.md").html
    assert "No safety data sheet is named here." in oil


def test_a_disputed_value_names_both_sides() -> None:
    bronze = page(material_pages, book_of("hand-bell"), "the-tools/materials/bell-bronze.md").html
    assert "Mira Ostry</a></i>" in bronze
    assert "Oro Lentz</a></i>" in bronze
    assert "not settled" in bronze


def test_a_doubtful_value_leads_to_its_question() -> None:
    bronze = page(material_pages, book_of("hand-bell"), "the-tools/materials/bell-bronze.md").html
    assert "Perhaps 10\u00a0years" in bronze
    assert "not sure" in bronze


PRIMER = """\
=== tools/materials/primer.yml
material: primer
title: Primer
opened: {opened}
properties: {{shelf life: 24 mo, shelf life after opening: 4 mo}}
"""


@pytest.mark.parametrize(
    ("opened", "words"),
    [
        ("2026-02-01", "Opened 1 February 2026; good until 1 June 2026 (shelf life after opening)"),
        ("2025-10-01", "Opened 1 October 2025; past its shelf life after opening since 1 February 2026: do not use it"),
    ],
)
def test_what_is_open_says_since_when_and_how_long_it_keeps(tmp_path: Path, opened: str, words: str) -> None:
    """Today is 2 March 2026."""
    book = book_written(PRIMER.format(opened=opened), tmp_path)
    assert words in words_of(page(material_pages, book, "the-tools/materials/primer.md").html)
