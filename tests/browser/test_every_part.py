"""Every part of a page, drawn by the theme and looked at in a real browser."""

from pathlib import Path

import nu
import pytest
import sitecheck
from playwright.sync_api import BrowserContext

EVERY_PART = "the-work/every-part.html"


@pytest.mark.usefixtures("axe_core")
def test_all_pages_fit_every_screen_and_can_be_used_by_anybody(
    context: BrowserContext, sample_site: Path
) -> None:
    assert sitecheck.analysis(context, sitecheck.html_pages(sample_site)) == []


def test_no_page_asks_for_anything_outside(context: BrowserContext, sample_site: Path) -> None:
    assert sitecheck.requests_leaving(context, sitecheck.html_pages(sample_site)) == []


def test_every_link_works_from_disk_and_so_does_the_page_for_missing_pages(sample_site: Path) -> None:
    assert (sample_site / "404.html").is_file()
    assert sitecheck.dead_links(sample_site) == []


def test_the_markup_is_what_the_html_standard_asks_for(java: str, sample_site: Path) -> None:
    assert nu.nu_html(sitecheck.html_pages(sample_site), java) == []


def test_text_spacing_of_a_reader_cuts_nothing_off(context: BrowserContext, sample_site: Path) -> None:
    # WCAG 2.2, criterion 1.4.12: the spacings a reader may set without losing anything
    spacing = (
        "* {line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important}"
    )
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        page.add_style_tag(content=spacing + "p {margin-bottom: 2em !important}")
        assert sitecheck.no_sideways_scroll(page, (360, 820, 1280)) == []


def test_a_page_with_errors_says_so_before_anything_else_and_on_paper(
    context: BrowserContext, sample_site: Path
) -> None:
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        banner = page.get_by_role("region", name="Not sound: do not work from this page.")
        assert "reference-none" in banner.inner_text()
        first_part = page.locator(".bl-place").bounding_box()
        box = banner.bounding_box()
        assert box and first_part and box["y"] + box["height"] < first_part["y"]
        page.emulate_media(media="print")
        assert banner.is_visible()


def test_numbers_on_a_photograph_stay_within_it(context: BrowserContext, sample_site: Path) -> None:
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        page.set_viewport_size({"width": 360, "height": 800})
        frame = page.locator(".bl-photo__frame:has(.bl-fig__n)").bounding_box()
        assert frame
        for mark in page.locator(".bl-fig__n").all():
            box = mark.bounding_box()
            assert box
            assert frame["x"] <= box["x"] and box["x"] + box["width"] <= frame["x"] + frame["width"]
            assert frame["y"] <= box["y"] and box["y"] + box["height"] <= frame["y"] + frame["height"]
        assert page.locator(".bl-photo .bl-photo__notes li").count() == page.locator(".bl-fig__n").count()


def test_on_paper_a_recording_says_where_it_is_to_be_had(context: BrowserContext, sample_site: Path) -> None:
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        page.emulate_media(media="print")
        assert not page.locator("video").is_visible()
        assert page.get_by_text("Film, to be played from the book on a screen: first-cut.mp4").is_visible()


def test_a_folded_table_is_still_a_table(context: BrowserContext, sample_site: Path) -> None:
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        for width in (360, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            table = page.get_by_role("table", name="Troubles at the lathe")
            assert table.get_by_role("rowheader", name="Torn grain").count() == 1
            assert table.get_by_role("cell", name="Blunt gouge").count() == 1


def test_contents_show_the_open_chapter_and_the_headings_of_a_page_not_listed(
    context: BrowserContext, sample_site: Path
) -> None:
    with sitecheck.opened(context, sample_site / EVERY_PART) as (page, _):
        contents = page.get_by_role("navigation", name="Contents of the book")
        assert contents.locator("[aria-current=page]").inner_text() == "Every part once"
        assert contents.get_by_role("link", name="When it goes wrong").get_attribute("href") == "#troubles"
        assert contents.get_by_role("link", name="The work").count() == 1


def test_a_single_letter_is_no_command(context: BrowserContext, sample_site: Path) -> None:
    # WCAG 2.2, criterion 2.1.4
    with sitecheck.opened(context, sample_site / "index.html") as (page, _):
        page.keyboard.press("n")
        page.keyboard.press("s")
        page.wait_for_timeout(300)
        assert page.url.endswith("/index.html")
        assert not page.locator(".bl-finder").is_visible()
