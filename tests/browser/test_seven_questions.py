"""What somebody asks at the bench is found from the start page on a phone: three touches, one and a half screens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
import sitecheck
from playwright.sync_api import BrowserContext, Locator, Page

WIDE, HIGH = 360, 740
TOUCHES, SCREENS = 3, 1.5


@dataclass
class Walk:
    """A way through the book: touches, and how far one had to scroll to see what one touched or looked for."""

    page: Page
    touches: int = 0
    scrolled: float = 0

    def see(self, what: Locator) -> None:
        """Scroll down until it is seen; never up, since one reads downward."""
        what.wait_for()
        box = what.evaluate("one => { const box = one.getBoundingClientRect(); return [box.top, box.bottom]; }")
        top, bottom = float(box[0]), float(box[1])
        assert top >= -1, "it is above what one sees"
        down = max(0.0, min(bottom - HIGH, top - 100))
        self.scrolled += down / HIGH
        self.page.mouse.wheel(0, down)

    def touch(self, what: Locator) -> None:
        """Scroll to a link or a fold, and touch it."""
        self.see(what)
        what.click()
        self.page.wait_for_load_state()
        self.touches += 1

    def contents(self, name: str) -> None:
        """By the contents of the book."""
        self.touch(self.page.locator(".bl-contents > summary"))
        self.touch(self.page.locator(".bl-contents").get_by_role("link", name=name, exact=True))

    def find(self, words: str, told: str) -> None:
        """By the finder: the first result says what is asked for."""
        self.touch(self.page.get_by_role("button", name="Find"))
        self.page.keyboard.type(words)
        first = self.page.locator(".bl-finder li a").first
        first.wait_for()
        self.page.wait_for_function(
            "told => document.querySelector('.bl-finder li a').textContent.includes(told)", arg=told)
        self.touch(first)


def how_do_i_do_it(walk: Walk) -> Locator:
    walk.find("grind the sole", "Grind the sole flat")
    return walk.page.get_by_role("heading", name="First, stay whole")


def when_is_it_good(walk: Walk) -> Locator:
    walk.find("flatness of the sole", "latness of the sole")
    return walk.page.locator(":target").get_by_text("at most 0.10").first


def it_went_wrong(walk: Walk) -> Locator:
    walk.find("it still rocks", "still rocks")
    return walk.page.locator(":target").first


def what_hurts_here(walk: Walk) -> Locator:
    walk.contents("Staying whole")
    walk.touch(walk.page.locator(".bl-places").get_by_role("link", name="Spinning lathe"))
    return walk.page.locator("#at-spinning-lathe .bl-peril").first


def what_must_i_show(walk: Walk) -> Locator:
    walk.find("grinding flat", "Grinding flat")
    walk.touch(walk.page.get_by_role("link", name="What is shown for it").first)
    return walk.page.locator(".bl-shown > li").first


def what_is_lost_without_her(walk: Walk) -> Locator:
    walk.contents("The hands")
    walk.touch(walk.page.get_by_role("link", name="What would be lost"))
    return walk.page.locator("#if-one-left + ul li", has_text="Edda Corvane").first


def what_must_be_ordered(walk: Walk) -> Locator:
    walk.contents("Order: Spring delivery 2027")
    walk.touch(walk.page.locator("summary", has_text="To be bought and used up"))
    return walk.page.locator(".bl-batch td:visible").first


ASKED = (how_do_i_do_it, when_is_it_good, it_went_wrong, what_hurts_here, what_must_i_show, what_is_lost_without_her,
         what_must_be_ordered)


@pytest.mark.parametrize("question", ASKED, ids=[one.__name__ for one in ASKED])
def test_what_is_asked_at_the_bench_is_near(
    question: Callable[[Walk], Locator], book: Path, context: BrowserContext
) -> None:
    with sitecheck.opened(context, book / "index.html") as (page, log):
        page.set_viewport_size({"width": WIDE, "height": HIGH})
        walk = Walk(page)
        walk.see(question(walk))
        assert walk.touches <= TOUCHES
        assert walk.scrolled <= SCREENS
        assert log.console == []
