"""How far to trust the numbers: made from the checks against what others published."""

from __future__ import annotations

import pytest
from expectation import book_of, page
from markupsafe import Markup

from site_builder.handbook.pages.trust import outside, trust_pages
from site_builder.handbook.pages.writers import writer_pages
from site_builder.handbook.site import TRUST, WRITERS, Page


@pytest.fixture(scope="module")
def trust() -> Page:
    return page(trust_pages, book_of("hand-bell"), TRUST)


def words(sheet: Page) -> str:
    return " ".join(Markup(sheet.html).striptags().replace("\u00a0", " ").split())


def test_every_check_stands_on_it(trust: Page) -> None:
    data = outside()
    assert trust.html.count("<li>") == len(data["checks"])
    assert f"held against {len(data['checks'])} values that others published" in words(trust)
    for title in data["topics"].values():
        assert f">{title}</h2>" in trust.html


def test_a_check_shows_what_was_published_and_what_comes_out(trust: Page) -> None:
    """29 CFR 1910.95 Appendix A, Table G-16a: 13.9 h at 86 dB(A)."""
    assert "Reference duration T: 13.9 h; 13.9288" in words(trust)
    assert "29 CFR 1910.95 Appendix A, Noise exposure computation, OSHA, 2024, Table G-16a" in words(trust)


def test_where_publishers_disagree_the_range_is_told(trust: Page) -> None:
    assert "Loading punch press stock, start: lifting index: between 2.7 and 2.74; 2.74463" in words(trust)


def test_what_is_from_memory_says_so(trust: Page) -> None:
    assert "FEPA 42-2, FEPA, 2006, F230-F2000 table, from memory" in words(trust)


def test_it_is_light_and_found_by_its_title_alone(trust: Page) -> None:
    assert len(trust.html.encode()) < 300_000
    assert (trust.told, trust.parts) == ("", ())


def test_no_address_of_a_foreign_server(trust: Page) -> None:
    assert "http" not in trust.html


def test_writers_are_led_to_it() -> None:
    assert 'href="how-far-to-trust-the-numbers.html"' in page(writer_pages, book_of("hand-bell"), WRITERS).html
