"""Start here: the page one opens first."""

from itertools import pairwise
from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.drawings.named_picture import Named, named_picture
from site_builder.handbook.gallery import gallery
from site_builder.handbook.pages.start import start_pages
from site_builder.handbook.site import START, Site


def said(site: Site) -> str:
    return Markup(page(start_pages, site, START).html).striptags()


def test_the_page_as_it_was_found_good() -> None:
    expect(page(start_pages, book_of("hook-forge"), START), "start")


def test_an_empty_shop_has_a_first_page_all_the_same(tmp_path: Path) -> None:
    words = said(book_written("=== procedures/shop.yml\nshop: s\ntitle: Our shop\n", tmp_path))
    assert "This book tells how we work." in words
    assert "If the master is not here" in words


@pytest.mark.parametrize(
    ("products", "words"),
    [
        ("{hook: Coat hook}", "how we make the coat hook."),
        ("{hook: Coat hook, latch: Latch}", "how we make two things: coat hook and latch."),
    ],
)
def test_what_is_made(tmp_path: Path, products: str, words: str) -> None:
    book = book_written(f"=== procedures/shop.yml\nshop: s\ntitle: S\nproducts: {products}\n", tmp_path)
    assert words in said(book)


def test_the_master_is_whoever_the_chain_begins_with_and_is_still_here() -> None:
    words = said(book_of("hook-forge"))
    assert "If Petra is not here" in words
    assert "Arvid" not in words


DRAWN = """\
=== procedures/shop.yml
shop: s
title: S
products:
  hook:
    title: Hook
    of: {bow: 1, plate: 1}
    pictures:
      file: hook.svg
      shows: The hook
      marks:
        - {at: [0.2, 0.1], note: "[[bow]], bent & hot"}
        - {at: [0.8, 0.9], note: "[[plate|back plate]]"}
parts: {bow: Bow, plate: Plate}
=== procedures/photos/hook.svg
<svg xmlns="http://www.w3.org/2000/svg" width="100" height="200" viewBox="0 0 100 200"><path d="M0 0h9"/></svg>
"""


def test_parts_named_on_the_picture_lead_to_their_pages(tmp_path: Path) -> None:
    book = book_written(DRAWN, tmp_path)
    pictures, _, _ = gallery(book, tmp_path / "cache")
    html = page(start_pages, Site(book.analysis, book.findings, pictures=pictures), START).html
    assert html.count('<a href="the-work/bow/index.html"><rect') == 2  # the wide drawing and the one for a phone
    assert ">bent &amp; hot<" in html
    assert ">back plate<" in html


def test_names_do_not_cover_each_other() -> None:
    """Five names for one spot stand below one another."""
    names = [Named(0.9, 0.5, f"Part {n}", "of iron") for n in range(5)]
    wide, tall = named_picture("x.svg", (100, 100), names, "Five parts")
    for drawing in (wide, tall):
        rows = [float(line.split(' y="')[1].split('"')[0]) for line in drawing.splitlines() if 'class="lab"' in line]
        assert all(after - before >= 40 for before, after in pairwise(rows))
        height = float(drawing.split('height="')[1].split('"')[0])
        assert max(rows) < height
