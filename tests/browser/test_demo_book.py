"""The demo handbook as a reader meets it: opened from the disk, with no network, on any screen."""

import re
from pathlib import Path

import nu
import pytest
import sitecheck
from playwright.sync_api import BrowserContext, expect

ONE_OF_EACH = (
    "index.html",
    "404.html",
    "orders/spring-2027.html",
    "for-writers/how-far-to-trust-the-numbers.html",
    "the-work/index.html",
    "the-work/foot/index.html",
    "the-work/foot/true-the-sole.html",
    "the-work/foot/true-the-sole-reckoning.html",
    "the-work/foot/prime-foot.html",
    "the-work/hood/spin-hood.html",
    "the-work/shared/dress-the-belt.html",
    "the-hands/index.html",
    "the-hands/who-taught-whom.html",
    "the-hands/skills/grinding-flat.html",
    "the-hands/people/ansa.html",
    "the-hands/study/grinding-flat.html",
    "the-hands/sheets/packing.html",
    "the-tools/index.html",
    "the-tools/belt-grinder.html",
    "the-tools/height-gauge.html",
    "the-tools/foot-mould.html",
    "the-tools/foot-edge-a.html",
    "the-tools/materials/zinc-eleven.html",
    "staying-whole.html",
    "still-unwritten.html",
    "changes/index.html",
    "changes/cotton-after-finger.html",
    "words.html",
    "stories/history-of-the-lantern.html",
    "for-writers/index.html",
    "for-writers/what-is-checked.html",
)
"""One page of each kind."""


def test_no_link_of_the_book_leads_nowhere_or_outside(book: Path) -> None:
    assert sitecheck.dead_links(book) == []


def test_no_page_asks_for_anything_outside_or_complains(book: Path, context: BrowserContext) -> None:
    assert sitecheck.requests_leaving(context, [book / page for page in ONE_OF_EACH]) == []


def test_no_foreign_address_is_left_that_a_browser_could_ask_for(book: Path) -> None:
    """Names of XML namespaces are no addresses; nor is what a script only says or a comment credits.

    The examples of rules show addresses in words, under the ending that belongs to nobody (RFC 2606).
    """
    found = [
        f"{file.relative_to(book)}: {address}"
        for file in book.rglob("*.html")
        for address in re.findall(r"(?:https?:)?//[\w.-]+\.\w+[^\s\"'<>]*", file.read_text("utf-8"))
        if not address.startswith("http://www.w3.org/") and ".example/" not in address
    ]
    for file in book.rglob("*.css"):
        found += re.findall(r"(?:url\(\s*|@import\s+)[\"']?(?:https?:)?//[^\s)]+", file.read_text("utf-8"))
    for file in book.rglob("*.js"):
        found += re.findall(r"https?://(?:unpkg|api\.github|cdn|fonts)[^\s\"'`]*", file.read_text("utf-8"))
    assert found == []


@pytest.mark.parametrize("page", ONE_OF_EACH)
def test_one_page_of_each_kind_fits_every_screen_and_everybody(
    page: str, book: Path, context: BrowserContext, axe_core: Path
) -> None:
    assert axe_core.is_file()
    assert sitecheck.analysis(context, [book / page]) == []


def test_nothing_scrolls_sideways_on_a_phone_on_any_page(book: Path, context: BrowserContext) -> None:
    wide = []
    page = context.new_page()
    page.set_viewport_size({"width": 360, "height": 900})
    for path in sitecheck.html_pages(book):
        page.goto(path.as_uri())
        wide += [f"{path.relative_to(book)}: {words}" for words in sitecheck.no_sideways_scroll(page, [360])]
    assert wide == []


def test_the_html_of_every_page_is_valid(book: Path, java: str) -> None:
    assert nu.nu_html(sitecheck.html_pages(book), java) == []


def test_a_reader_finds_a_step_by_a_word(book: Path, context: BrowserContext) -> None:
    with sitecheck.opened(context, book / "index.html") as (page, log):
        page.get_by_role("button", name="Find").click()
        page.keyboard.type("cotton wool")
        link = page.locator(".bl-finder li a").first
        expect(link).to_contain_text("otton")  # the results of the first letters come before
        with page.expect_navigation():
            link.click()
        assert page.url.startswith(book.as_uri())
        assert log.leaving() == []


def test_a_reader_follows_the_map_from_raw_metal_to_the_packed_lantern(
    book: Path, context: BrowserContext
) -> None:
    with sitecheck.opened(context, book / "index.html") as (page, _):
        with page.expect_navigation():
            page.get_by_role("link", name="The work", exact=True).first.click()
        with page.expect_navigation():
            page.locator("svg a", has_text="Cast the foot").first.click()
        seen = []
        while True:
            seen.append(page.locator("h1").inner_text())
            onward = page.locator(".bl-turn--end .bl-turn__next a")
            if onward.count() == 0:
                break
            with page.expect_navigation():
                onward.first.click()
        assert seen[0] == "Cast the foot"
        assert "Grind the sole flat" in seen
        assert seen[-1] == "Pack the lantern"


def test_the_page_can_be_read_for_one_pattern(book: Path, context: BrowserContext) -> None:
    with sitecheck.opened(context, book / "the-work/foot/true-the-sole.html") as (page, _):
        deck = page.locator('[data-for-pattern="deck"]').first
        assert deck.is_visible()
        page.get_by_label("harbour pattern").check()
        assert not deck.is_visible()


def test_the_index_of_the_finder_is_small(book: Path) -> None:
    sizes = sitecheck.words_sizes(book)
    assert sum(sizes.values()) / len(sizes) < 1500


def test_from_a_tool_a_reader_comes_back_to_the_step_that_was_left(book: Path, context: BrowserContext) -> None:
    with sitecheck.opened(context, book / "the-work/foot/true-the-sole.html") as (page, _):
        with page.expect_navigation():
            page.locator(".bl-steps > li").nth(5).get_by_role("link", name="feeler gauges").first.click()
        assert page.locator("h1").inner_text() == "Feeler gauges"
        back = page.locator(".bl-return a")
        assert back.inner_text() == "Back to step 6, Grind the sole flat"
        with page.expect_navigation():
            back.click()
        assert page.locator("h1").inner_text() == "Grind the sole flat"
        assert page.evaluate("document.querySelector('.bl-steps > li:nth-child(6)').matches(':target')")
        assert page.locator(".bl-return").count() == 0
