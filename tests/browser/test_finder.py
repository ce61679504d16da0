"""The finder: small records, made from the data, that are found from a disk without a network."""

import json
from pathlib import Path

import sitecheck
from playwright.sync_api import BrowserContext

from site_builder.handbook.finder import Part, page_entries, share, write_entries

STEPS = [
    Part("run-up", "Start the extraction, then the belt.", "The belt tracks on the centre line."),
    Part("sweep", "Lay the sole on the belt & sweep it along.", "Weight over the middle. " * 100),
]


def bytes_of(entries: object) -> int:
    return len(json.dumps(entries, separators=(",", ":")))


def test_a_step_is_found_by_itself() -> None:
    page, first, _ = page_entries(
        "work/grind.html", "Grind the sole flat", "A hollow sole lifts the filler.", STEPS
    )
    assert page["location"] == "work/grind.html"
    assert page["text"] == "A hollow sole lifts the filler."
    assert first["location"] == "work/grind.html#run-up"
    assert first["text"] == "The belt tracks on the centre line."


def test_a_page_keeps_to_its_room_and_is_cut_between_words() -> None:
    entries = page_entries("work/grind.html", "Grind the sole flat", "Why.", STEPS, room=800)
    assert 700 < bytes_of(entries) <= 800
    assert entries[-1]["text"].split()[-1] in {"Weight", "over", "the", "middle."}


def test_titles_and_the_first_words_of_a_page_are_never_left_out() -> None:
    many = [Part(f"s{n}", f"Do the {n}th thing.") for n in range(60)]
    entries = page_entries("a.html", "A", "Because of the rim.", many)
    assert len(entries) == 61
    assert entries[0]["text"] == "Because of the rim."


def test_a_record_is_escaped_since_the_theme_shows_it_as_html() -> None:
    (entry,) = page_entries("a.html", "Salt & <b>acid</b>", "x < y", [])
    assert (entry["title"], entry["text"]) == ("Salt &amp; acid", "x &lt; y")


def test_a_small_book_may_say_more_a_page_than_a_large_one() -> None:
    assert share(16) == 8000
    assert share(2000) == 1500
    assert share(1000) == 3000


def test_without_the_search_plugin_there_is_nothing_to_add_to(tmp_path: Path) -> None:
    write_entries(tmp_path, page_entries("a.html", "A", "", []))
    assert list(tmp_path.iterdir()) == []


def test_a_word_is_found_from_disk_with_no_network(context: BrowserContext, sample_site: Path) -> None:
    with sitecheck.opened(context, sample_site / "index.html") as (page, log):
        page.get_by_role("textbox", name="Find in this book").click()
        page.keyboard.type("hiss")
        found = page.locator(".md-search-result__link", has_text="Turn it round")
        found.wait_for(timeout=10_000)
        assert log.leaving() == []
        assert log.console == []
        found.click()
        page.wait_for_url("**/the-work/every-part.html#rough")


def test_the_finder_can_be_used_by_anybody_while_it_is_open(
    context: BrowserContext, sample_site: Path, axe_core: Path
) -> None:
    assert axe_core.is_file()
    with sitecheck.opened(context, sample_site / "index.html") as (page, _):
        page.set_viewport_size({"width": 360, "height": 700})
        page.get_by_role("button", name="Find").click()
        page.keyboard.type("wall")
        page.locator(".md-search-result__item").first.wait_for(timeout=10_000)
        assert sitecheck.axe(page) == []
