"""Pages of tools: what can hurt first, then what it is, what it needs, where it is used."""

from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.tool import tool_pages
from site_builder.handbook.pages.tools_index import tools_pages
from site_builder.handbook.site import TOOLS


@pytest.mark.parametrize("tool", ["lathe", "caliper", "tongs", "iron-mould", "face-shield", "ring-true"])
def test_the_page_as_it_was_found_good(tool: str) -> None:
    expect(page(tool_pages, book_of("hand-bell"), f"the-tools/{tool}.md"), f"tool-{tool}")


def test_the_ledgers_of_all_tools() -> None:
    expect(page(tools_pages, book_of("hand-bell"), TOOLS), "tools")


def test_what_a_group_says_holds_for_its_members() -> None:
    lathe = page(tool_pages, book_of("hand-bell"), "the-tools/lathe.md").html
    assert "Flying chips" in lathe
    assert lathe.index("Drawn in") < lathe.index("Flying chips") < lathe.index("Never wear gloves")


def test_a_tool_that_is_refused_is_not_used() -> None:
    """Casting names the lathe only under `not`."""
    lathe = page(tool_pages, book_of("hand-bell"), "the-tools/lathe.md").html
    assert "cast-bell.html" not in lathe[lathe.index('id="used-in"'):]


def test_a_hazard_without_a_signal_word_is_shown_all_the_same() -> None:
    tongs = page(tool_pages, book_of("hand-bell"), "the-tools/tongs.md").html
    assert "<strong>HAZARD</strong>" in tongs


GAUGE = "=== tools/gauges/rule.yml\ngauge: rule\ntitle: Rule\ncalibration: {{when: {when}, date: {date}}}\n"


@pytest.mark.parametrize(
    ("when", "date", "words"),
    [
        ("every 12 mo", "2025-03-02", "due on 2 March 2026"),  # today is the day: still in time
        ("every 12 mo", "2025-03-01", "overdue since 1 March 2026"),
        ("every 6 mo", "2025-08-31", "overdue since 28 February 2026"),  # the month is too short
        ("every 2 wk; every 500 pieces", "2026-02-20", "due on 6 March 2026"),
        ("every 500 pieces", "2026-02-20", ""),
    ],
)
def test_when_a_gauge_is_due_again(tmp_path: Path, when: str, date: str, words: str) -> None:
    book = book_written(GAUGE.format(when=when, date=date), tmp_path)
    said = Markup(page(tool_pages, book, "the-tools/rule.md").html).striptags()
    assert words in said
    assert ("overdue" in said) == words.startswith("overdue")
    index = Markup(page(tools_pages, book, TOOLS).html).striptags()
    assert ("Rule: calibration overdue" in index) == words.startswith("overdue")


def test_free_text_is_shown_as_text(tmp_path: Path) -> None:
    text = "=== tools/machines/saw.yml\nmachine: saw\ntitle: Saw <b>x</b>\nwhere: <script>alert(1)</script>\n"
    html = page(tool_pages, book_written(text, tmp_path), "the-tools/saw.md").html
    assert "<script>" not in html
    assert "&lt;script&gt;" in html
    assert "<h1>Saw &lt;b&gt;" in html
