"""How soon a page of work comes to the work, and how long it is: measured as somebody at the bench holds it.

The demo shop, and notebooks of other trades that nobody wrote to please the program.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1366, "height": 768}
FIRST = "document.querySelector('.bl-steps > li').getBoundingClientRect().top + scrollY"
SMALL_WORDS = """() => [...document.querySelectorAll('main svg text')].filter(one => {
  const box = one.getBoundingClientRect(), lines = one.getBBox();
  return box.height && lines.height && parseFloat(getComputedStyle(one).fontSize) * box.height / lines.height < 11;
}).map(one => one.textContent)"""


@pytest.fixture(scope="session")
def works(books: Mapping[str, Path]) -> tuple[Path, ...]:
    """The page of every procedure: of the demo, and of each other trade."""
    found = [page for site in books.values() for page in sorted((site / "the-work").rglob("*.html"))]
    return tuple(page for page in found if 'id="steps"' in page.read_text("utf-8"))


def screens(page: Page, works: tuple[Path, ...], size: Mapping[str, int]) -> dict[str, tuple[float, float]]:
    """Where the first step begins and where the page ends, in screens, by the name of the page."""
    page.set_viewport_size({"width": size["width"], "height": size["height"]})
    found = {}
    for work in works:
        page.goto(work.as_uri())
        first, end = page.evaluate(f"() => [{FIRST}, document.documentElement.scrollHeight]")
        found[f"{work.parent.name}/{work.stem}"] = (first / size["height"], end / size["height"])
    return found


def test_the_first_step_and_the_end_of_a_page_are_near_on_a_phone(
    works: tuple[Path, ...], context: BrowserContext
) -> None:
    found = screens(context.new_page(), works, PHONE)
    assert len(found) > 50
    assert {name: first for name, (first, _) in found.items() if first > 2.2} == {}
    assert sum(first for first, _ in found.values()) / len(found) <= 2.0
    assert {name: end for name, (_, end) in found.items() if end > 14} == {}
    assert sum(end > 10 for _, end in found.values()) <= len(found) / 4


def test_the_first_step_is_near_at_the_desk(works: tuple[Path, ...], context: BrowserContext) -> None:
    found = screens(context.new_page(), works, DESK)
    assert {name: first for name, (first, _) in found.items() if first > 1.8} == {}


def test_no_word_in_a_drawing_is_too_small_to_read_on_a_phone(
    works: tuple[Path, ...], context: BrowserContext
) -> None:
    page = context.new_page()
    page.set_viewport_size({"width": 360, "height": 740})
    small = {}
    for work in works:
        page.goto(work.as_uri())
        words = page.evaluate(SMALL_WORDS)
        small |= {work.stem: words} if words else {}
    assert small == {}


def test_no_danger_is_shut_away_on_a_page_of_work(works: tuple[Path, ...], context: BrowserContext) -> None:
    page = context.new_page()
    page.set_viewport_size({"width": 360, "height": 740})
    shut = {}
    for work in works:
        page.goto(work.as_uri())
        hidden = page.eval_on_selector_all(
            "main .bl-peril, main .bl-never__text",
            "all => all.filter(one => !one.checkVisibility({contentVisibilityAuto: true})).map(one => one.innerText)")
        shut |= {work.stem: hidden} if hidden else {}
    assert shut == {}


def test_on_paper_a_page_of_work_is_five_sheets_or_six(works: tuple[Path, ...], context: BrowserContext) -> None:
    page = context.new_page()
    sheets = {}
    for work in works:
        page.goto(work.as_uri())
        if page.evaluate("document.documentElement.scrollHeight") > 3000:  # a shorter one cannot be that long
            sheets[work.stem] = page.pdf(format="A4", prefer_css_page_size=True).count(b"/Type /Page\n")
    assert sheets and min(sheets.values()) > 0
    assert {name: count for name, count in sheets.items() if count > 6} == {}


def test_the_season_is_short_on_a_phone_and_a_week_of_one_person_fits_one_screen(
    book: Path, context: BrowserContext
) -> None:
    page = context.new_page()
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto((book / "the-season/index.html").as_uri())
    assert page.evaluate("document.documentElement.scrollHeight") < 10 * 740
    assert page.evaluate("document.querySelector('.bl-lede').getBoundingClientRect().bottom") < 740
    assert page.evaluate(SMALL_WORDS) == []
    weeks = sorted((book / "the-season/weeks").glob("*.html"))
    assert len(weeks) == 4
    for week in weeks:
        page.goto(week.as_uri())
        assert page.evaluate("document.querySelector('.bl-days').getBoundingClientRect().bottom") < 740, week.stem
        ends = page.evaluate("""() => [...document.querySelectorAll('.bl-fold')].map(one => {
          one.open = true; return one.getBoundingClientRect().height; })""")
        assert ends, week.stem
        assert max(ends) < 740, week.stem
