"""The page for study in a browser: answers are folded away, and what one could answer is kept there and only there."""

from __future__ import annotations

import shutil
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect
from sitecheck import Log, opened

from site_builder.handbook.build import build_handbook

FORGE = Path(__file__).parent.parent / "notebooks" / "hook-forge"
STUDY = Path("the-hands") / "study" / "forging.html"
LIMIT = "What is the limit for the opening?"
ANSWER = "30 ±1 mm"
REFUSE = """Object.defineProperty(window, "localStorage", {get() { throw new DOMException("no", "SecurityError"); }})"""
FULL = """Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }"""


@pytest.fixture(scope="session")
def forge_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The handbook of a small forge."""
    home = tmp_path_factory.mktemp("forge")
    shutil.copytree(FORGE, home / "shop")
    settings = home / "shop" / "mkdocs.yml"
    settings.write_text(
        "site_name: The forge\ndocs_dir: procedures\nuse_directory_urls: false\ntheme: {name: material}\n"
        "plugins: [search, offline, {benchlore: {today: '2026-03-02', with_errors: true}}]\n", "utf-8")
    build_handbook(settings, into=home / "site", with_errors=True)
    return home / "site"


def served(page: Page, site: Path) -> str:
    """The address of the page as from a server; the browser of these tests finds no real one."""

    def answer(route: Route) -> None:
        route.fulfill(path=site / urlsplit(route.request.url).path.lstrip("/"))

    page.route("http://shop.invalid/**", answer)
    return f"http://shop.invalid/{STUDY.as_posix()}"


def unfold(page: Page, question: str = LIMIT) -> None:
    page.evaluate("document.querySelectorAll('.bl-study__group').forEach(one => { one.open = true; })")
    page.locator(".bl-study__q > summary", has_text=question).click()


def could(page: Page, question: str = LIMIT) -> None:
    """Open a question and say that one could answer it."""
    unfold(page, question)
    page.locator(".bl-study__q", has_text=question).get_by_label("I could answer this").check()


def counted(page: Page, words: str) -> None:
    expect(page.locator(".bl-study__count")).to_have_text(words)


def sound(log: Log) -> bool:
    return log.console == []


def test_an_answer_is_folded_away_until_it_is_asked_for(context: BrowserContext, forge_site: Path) -> None:
    with opened(context, forge_site / STUDY) as (page, log):
        answer = page.locator(".bl-study__q").get_by_text(ANSWER)
        expect(answer).to_be_hidden()
        unfold(page)
        expect(answer).to_be_visible()
        unfold(page)
        expect(answer).to_be_hidden()
        assert sound(log)


def test_it_is_folded_and_opened_without_any_script(chromium: Browser, forge_site: Path) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((forge_site / STUDY).as_uri())
    answer = page.locator(".bl-study__q").get_by_text(ANSWER)
    expect(answer).to_be_hidden()
    unfold(page)
    expect(answer).to_be_visible()
    expect(page.locator(".bl-study__keep")).to_be_hidden()  # nothing is promised that only a script could keep
    assert page.get_by_label("I could answer this").count() == 0
    context.close()


@pytest.mark.parametrize("way", ["from the disk", "from a server"])
def test_what_one_could_answer_is_remembered_when_the_page_is_opened_again(
    way: str, context: BrowserContext, forge_site: Path
) -> None:
    with opened(context, forge_site / STUDY) as (page, log):
        if way == "from a server":
            page.goto(served(page, forge_site))
        counted(page, "You could answer 0 of 5.")
        expect(page.get_by_text("kept in this browser only")).to_be_visible()
        could(page)
        counted(page, "You could answer 1 of 5.")
        page.reload()
        counted(page, "You could answer 1 of 5.")
        expect(page.locator(".bl-study__q > summary", has_text=LIMIT)).to_contain_text("could answer")
        assert sound(log)


def test_only_those_that_are_left_are_shown_and_one_can_begin_anew(context: BrowserContext, forge_site: Path) -> None:
    with opened(context, forge_site / STUDY) as (page, _):
        could(page)
        could(page, "What does “scale” mean?")
        page.get_by_label("Show only those I could not answer").check()
        expect(page.locator(".bl-study__q > summary", has_text=LIMIT)).to_be_hidden()
        expect(page.locator(".bl-study").get_by_role("heading", name="Words")).to_be_hidden()  # nothing is left in it
        assert page.locator(".bl-study__q:visible").count() == 3
        page.get_by_role("button", name="Begin anew").click()
        counted(page, "You could answer 0 of 5.")
        assert page.locator(".bl-study__q:visible").count() == 5
        page.reload()
        counted(page, "You could answer 0 of 5.")


@pytest.mark.parametrize("script", [REFUSE, FULL], ids=["refused", "full"])
def test_where_the_browser_keeps_nothing_the_page_says_so_and_goes_on(
    script: str, context: BrowserContext, forge_site: Path
) -> None:
    context.add_init_script(script)
    with opened(context, forge_site / STUDY) as (page, log):
        expect(page.get_by_text("This browser keeps nothing for this page")).to_be_visible()
        expect(page.get_by_text("kept in this browser only")).to_be_hidden()
        could(page)
        counted(page, "You could answer 1 of 5.")
        assert sound(log)


@pytest.mark.parametrize("left", ["{", '{"a": 1}', "null", "7"])
def test_what_lies_there_and_cannot_be_read_is_passed_over(
    left: str, context: BrowserContext, forge_site: Path
) -> None:
    context.add_init_script(f"localStorage.getItem = () => {left!r}; Storage.prototype.getItem = () => {left!r}")
    with opened(context, forge_site / STUDY) as (page, log):
        counted(page, "You could answer 0 of 5.")
        expect(page.get_by_text("kept in this browser only")).to_be_visible()
        could(page)
        counted(page, "You could answer 1 of 5.")
        assert sound(log)


def test_on_paper_the_questions_come_first_and_the_answers_at_the_end(
    context: BrowserContext, forge_site: Path
) -> None:
    with opened(context, forge_site / STUDY) as (page, _):
        could(page)
        page.get_by_label("Show only those I could not answer").check()
        page.emulate_media(media="print")
        assert page.locator(".bl-study__q:visible").count() == 5  # what is hidden on the screen is on the paper
        expect(page.locator(".bl-study__q").get_by_text(ANSWER)).to_be_hidden()
        expect(page.locator(".bl-study__answers").get_by_text(ANSWER)).to_be_visible()
        expect(page.get_by_text("I could answer this").first).to_be_hidden()


def test_the_script_is_asked_for_by_this_page_only(context: BrowserContext, forge_site: Path) -> None:
    with opened(context, forge_site / STUDY) as (_, log):
        assert [address for address in log.requests if address.endswith("/study.js")]
    with opened(context, forge_site / "the-hands" / "skills" / "forging.html") as (_, log):
        assert not [address for address in log.requests if address.endswith("/study.js")]
