"""The page of an order, and the ways to it."""

from __future__ import annotations

from pathlib import Path

from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.order import order_pages
from site_builder.handbook.pages.part import part_pages
from site_builder.handbook.pages.start import start_pages

ORDER = """\
=== procedures/shop.yml
shop: s
title: S
products: {bolt: Bolt}
=== procedures/orders/rush.yml
order: rush
title: Rush
"""


def text_of(html: str) -> str:
    return " ".join(Markup(html).striptags().replace("\u00a0", " ").split())


def test_the_page_as_it_was_found_good() -> None:
    expect(page(order_pages, book_of("lots"), "orders/street.md"), "order-street")


def test_start_and_product_lead_to_it() -> None:
    for make, src_uri, href in ((start_pages, "index.md", "orders/street.html"),
                                (part_pages, "the-work/house-sign/index.md", "../../orders/street.html")):
        html = page(make, book_of("lots"), src_uri).html
        assert f'<a href="{href}">A street of signs</a>, 45 pieces, by 1 September 2026' in text_links(html)


def text_links(html: str) -> str:
    return html.replace("\u00a0", " ")


def test_an_order_that_does_not_say_how_many(tmp_path: Path) -> None:
    said = text_of(page(order_pages, book_written(ORDER, tmp_path), "orders/rush.md").html)
    assert "Nothing can be reckoned yet: it is not told of what and how many." in said


def test_an_order_of_what_nobody_makes(tmp_path: Path) -> None:
    text = ORDER + "product: bolt\npieces: 12\n"
    said = text_of(page(order_pages, book_written(text, tmp_path), "orders/rush.md").html)
    assert "Nothing can be reckoned yet: no procedure makes it." in said


def test_an_order_of_less_than_one(tmp_path: Path) -> None:
    text = ORDER + "product: bolt\npieces: 0\n"
    said = text_of(page(order_pages, book_written(text, tmp_path), "orders/rush.md").html)
    assert "Nothing can be reckoned: pieces ordered (count) must be a whole number, 1 or more, not 0." in said
