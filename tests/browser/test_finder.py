"""The finder: small records made from the data, found from a disk without a network, by whatever word one has."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import sitecheck
from playwright.sync_api import BrowserContext, Page

from site_builder.handbook.finder import Part, Record, page_record, share, story_record, write_words

STEPS = [
    Part("run-up", "Start the extraction, then the belt.", "The belt tracks on the centre line."),
    Part("sweep", "Lay the sole on the belt & sweep it along.", "Weight over the middle. " * 100),
]


def bytes_of(record: Record, folder: Path) -> int:
    write_words(folder, [record])
    return (folder / "search" / "words.js").stat().st_size - len('window.wordsOfTheBook={"also":[],"pages":[]};\n')


def test_a_step_is_found_by_itself() -> None:
    page = page_record("work/grind.html", "Grind the sole flat", "A hollow sole lifts the filler.", STEPS, "The work")
    assert (page.url, page.text, page.chapter) == ("work/grind.html", "A hollow sole lifts the filler.", "The work")
    assert page.parts[0].anchor == "run-up"
    assert page.parts[0].text == "The belt tracks on the centre line."


def test_a_page_keeps_to_its_room_and_is_cut_between_words(tmp_path: Path) -> None:
    page = page_record("work/grind.html", "Grind the sole flat", "Why.", STEPS, room=800)
    assert 650 < bytes_of(page, tmp_path) <= 800
    assert page.parts[-1].text.split()[-1] in {"Weight", "over", "the", "middle."}


def test_titles_and_the_first_words_of_a_page_are_never_left_out() -> None:
    page = page_record("a.html", "A", "Because of the rim.", [Part(f"s{n}", f"Do the {n}th thing.") for n in range(60)])
    assert len(page.parts) == 60
    assert all(part.title for part in page.parts)
    assert page.text == "Because of the rim."


def test_tags_are_no_words() -> None:
    assert page_record("a.html", "Salt & <b>acid</b>", "x", []).title == "Salt & acid"


def test_a_story_is_found_by_its_headings() -> None:
    page = story_record("stories/a.html", "How it began",
                        '<h1 id="a">How it began</h1><p>A shed.</p><h2 id="fire">The <i>fire</i></h2><p>1931.</p>')
    assert page.text == "A shed."
    assert [(part.anchor, part.title, part.text) for part in page.parts] == [("fire", "The fire", "1931.")]


def test_a_small_book_may_say_more_a_page_than_a_large_one() -> None:
    assert share(16) == 4000
    assert share(2000) == 1400
    assert share(1000) == 2800


# --- as a reader meets it -----------------------------------------------------------------------------------

BOOK = (
    page_record("index.html", "Start here", "How we paint.", [], "Start here"),
    page_record("work/paint.html", "Paint the foot", "Thin coats.", [
        Part("lay", "1. Lay the first coat.", "Hold the gun upright."),
        Part("runs", "A run at the lower edge.", "Too wet. Let it harden.", "Trouble"),
        Part("good", "Film: 60 µm to 80 µm", "", "Limit"),
    ], "The work"),
    page_record("writers/film.html", "Film of paint", "The key for a film, and what a run means.", [], "For writers"),
    page_record("hands/edda.html", "Edda Corvane", "Grinder.", [], "The hands"),
)
Ask = Callable[[str], list[str]]


@pytest.fixture
def ask(context: BrowserContext, sample_site: Path, tmp_path: Path) -> Iterator[Ask]:
    """What the finder tells of some words, opened from a disk: each result in a line."""
    folder = tmp_path / "book"
    folder.mkdir()
    for name in ("assets", "index.html"):
        (folder / name).symlink_to(sample_site / name)
    write_words(folder, BOOK, [["run", "sags", "curtains"]])
    with sitecheck.opened(context, folder / "index.html") as (page, log):
        page.get_by_role("button", name="Find").click()
        yield lambda words: _told(page, words)
        assert log.leaving() == []
        assert log.console == []


def _told(page: Page, words: str) -> list[str]:
    page.get_by_role("textbox", name="Find in this book").fill(words)
    page.wait_for_function("() => !/Opening/.test(document.querySelector('.bl-finder [role=status]').textContent)")
    rows = page.locator(".bl-finder li").all_inner_texts()
    return [page.locator(".bl-finder [role=status]").inner_text(), *(row.replace("\n", " | ") for row in rows)]


def test_a_trouble_and_a_limit_are_results_of_their_own(ask: Ask) -> None:
    assert ask("lower edge")[1].startswith("A run at the lower edge. | Trouble · Paint the foot")
    assert ask("film")[1].startswith("Film: 60 µm to 80 µm | Limit · Paint the foot")


@pytest.mark.parametrize("words", ["coats", "coat", "first coats", "how do I lay the first coat?", "laying coat"])
def test_plurals_endings_and_small_words_make_no_difference(ask: Ask, words: str) -> None:
    assert "Lay the first coat." in " ".join(ask(words))


def test_what_the_shop_also_calls_it(ask: Ask) -> None:
    for words in ("sags", "curtain", "sag edge"):
        assert ask(words)[1].startswith("A run at the lower edge."), words


@pytest.mark.parametrize("words", ["Corvnae", "Corvan", "Corbane", "grindre"])
def test_one_slip_of_the_pen_is_forgiven_and_told(ask: Ask, words: str) -> None:
    told = ask(words)
    assert "Edda Corvane" in told[1]
    assert words in "Corvan" or told[0] == f"Nothing says just “{words}”. Near it:"


def test_for_writers_comes_last(ask: Ask) -> None:
    told = ask("run")
    assert told[-1].startswith("Film of paint | For writers")
    assert len(told) == 3


def test_where_nothing_is_found_one_learns_what_is_near_or_what_to_do(ask: Ask) -> None:
    assert ask("run elephant")[:2] == ["Nothing says just “run elephant”. Near it:", ask("run")[1]]
    assert ask("elephant") == ["Nothing here says “elephant”. Try one word of it, or go by the contents."]


def test_a_result_leads_to_its_place_and_the_finder_is_shut(context: BrowserContext, sample_site: Path) -> None:
    with sitecheck.opened(context, sample_site / "index.html") as (page, log):
        page.get_by_role("button", name="Find").click()
        page.keyboard.type("hiss")
        page.locator(".bl-finder a", has_text="Turn it round").click()
        page.wait_for_url("**/the-work/every-part.html#rough")
        assert log.leaving() == []


def test_the_finder_can_be_used_by_anybody_while_it_is_open(
    context: BrowserContext, sample_site: Path, axe_core: Path
) -> None:
    assert axe_core.is_file()
    with sitecheck.opened(context, sample_site / "index.html") as (page, _):
        page.set_viewport_size({"width": 360, "height": 700})
        page.get_by_role("button", name="Find").click()
        page.keyboard.type("wall")
        page.locator(".bl-finder li").first.wait_for()
        assert sitecheck.axe(page) == []
        page.keyboard.press("Escape")
        assert not page.locator(".bl-finder").is_visible()


def test_words_that_look_like_markup_are_words(context: BrowserContext, sample_site: Path, tmp_path: Path) -> None:
    folder = tmp_path / "book"
    folder.mkdir()
    for name in ("assets", "index.html"):
        (folder / name).symlink_to(sample_site / name)
    told = "an &lt;img src=x onerror=alert(1)&gt; here"
    write_words(folder, [page_record("index.html", "Odd words", told, [], "Start here")])
    with sitecheck.opened(context, folder / "index.html") as (page, log):
        assert "onerror=alert(1)" in _after(page, "odd")
        assert page.locator(".bl-finder img").count() == 0
        assert log.console == []


def _after(page: Page, words: str) -> str:
    page.get_by_role("button", name="Find").click()
    return " ".join(_told(page, words))


def test_the_words_of_the_book_are_one_line_of_script(tmp_path: Path) -> None:
    write_words(tmp_path, BOOK, [["a", "b\u2028c"]])
    told = (tmp_path / "search" / "words.js").read_text("utf-8")
    assert told.count("\n") == 1
    assert json.loads(told.removeprefix("window.wordsOfTheBook=").removesuffix(";\n"))["also"] == [["a", "b c"]]
