"""A shop with an order and no plan yet has a page that says how to plan, and every other page."""

from __future__ import annotations

from pathlib import Path

from expectation import book_written, page

from site_builder.handbook.pages.season import season_pages


def test_what_is_ordered_and_not_planned_is_said_to_be_not_planned(tmp_path: Path) -> None:
    site = book_written("=== procedures/shop.yml\nshop: cooper\ntitle: A cooper\nproducts: {cask: Cask}\n"
                        "=== procedures/orders/spring.yml\norder: spring\ntitle: Spring\nproduct: cask\npieces: 20\n",
                        tmp_path)
    article = page(season_pages, site, "the-season/index.md").html
    assert "No season is planned yet. <code>benchlore season plan spring</code>" in article
