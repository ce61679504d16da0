"""Staying whole: the law first, then first aid, then everything in the shop that can hurt, each once."""

from pathlib import Path

from expectation import book_of, book_written, expect, page

from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.site import WHOLE


def test_the_page_as_it_was_found_good() -> None:
    expect(page(whole_pages, book_of("hand-bell"), WHOLE), "staying-whole")


def test_the_law_stands_before_everything_else() -> None:
    html = page(whole_pages, book_of("hand-bell"), WHOLE).html
    assert html.index("The law where you work goes first.") < html.index("<h2")


def test_where_nobody_wrote_what_to_do_first_the_page_says_so(tmp_path: Path) -> None:
    html = page(whole_pages, book_written("=== procedures/shop.yml\nshop: s\ntitle: S\n", tmp_path), WHOLE).html
    assert "call the emergency number" in html
    assert "not yet told" in html


SAWS = """\
=== tools/machines/band-saw.yml
machine: band-saw
title: Band saw
hazards:
  - {hazard: noise, word: warning, harm: It deafens., avoid: Defenders on.}
  - {hazard: blade, word: danger, harm: It takes a finger., avoid: Push stick.}
=== tools/machines/frame-saw.yml
machine: frame-saw
title: Frame saw
age: min 18 y
hazards:
  - {hazard: Noise, word: warning, harm: It deafens., avoid: Defenders on.}
  - {hazard: oily floor, word: notice, harm: Boards get stained., avoid: Wipe it.}
"""


def test_a_hazard_met_in_two_places_stands_once_with_both(tmp_path: Path) -> None:
    html = page(whole_pages, book_written(SAWS, tmp_path), WHOLE).html
    assert html.count("It deafens.") == 1
    hazard = html[html.index('id="warning-noise"'):]
    assert "Band saw</a>, <a" in hazard
    assert "Frame saw</a>" in hazard
    assert html.index("DANGER") < html.index("WARNING")


def test_words_written_in_a_hurry_do_not_run_together(tmp_path: Path) -> None:
    hurried = SAWS.replace("harm: It takes a finger., avoid: Push stick.", "harm: takes a finger, avoid: push stick")
    html = page(whole_pages, book_written(hurried, tmp_path), WHOLE).html
    assert "<b>Blade.</b> Takes a finger. " in html
    assert "Push stick." in html


def test_what_harms_the_work_alone_stands_elsewhere(tmp_path: Path) -> None:
    assert "stained" not in page(whole_pages, book_written(SAWS, tmp_path), WHOLE).html


def test_who_is_too_young() -> None:
    """The lathe asks for 16 years and casting for 18; the younger line comes first."""
    html = page(whole_pages, book_of("hand-bell"), WHOLE).html
    under_16, under_18 = html.index(">Under 16<"), html.index(">Under 18<")
    assert under_16 < html.index("lathe.html", under_16) < under_18 < html.index("casting.html", under_18)
