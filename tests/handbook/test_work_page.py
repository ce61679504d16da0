"""The map of the work: what a newcomer sees of the whole."""

from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.part import part_pages
from site_builder.handbook.pages.work import work_pages
from site_builder.handbook.pages.work_graph import MOST_STOPS, whole_graph
from site_builder.handbook.site import WORK
from site_builder.notebook.way import ways


def test_the_page_as_it_was_found_good() -> None:
    expect(page(work_pages, book_of("hand-bell"), WORK), "work")


def test_lanes_stops_and_joins_of_the_map() -> None:
    book = book_of("hand-bell")
    graph = whole_graph(PageContext(book, WORK), ways(book.notebook, book.analysis.route))
    assert [(lane.title, lane.subtitle) for lane in graph.lanes] == [("Bell", "bell bronze"), ("Hand bell", "")]
    assert [stop.id for stop in graph.stops if stop.outside] == ["engrave-bell"]
    # tuning comes after casting too, but that is said by turning already
    assert ("cast-bell", "tune-bell") not in [(edge.source, edge.target) for edge in graph.edges]
    assert [(thing.label, thing.joins) for thing in graph.bought] == [("handle", "hang-bell"), ("pin", "hang-bell")]


def test_only_a_way_back_that_is_usual_is_drawn() -> None:
    """`about 2; max 3` is the ordinary course of the work; a remedy without `about` is not."""
    book = book_of("hand-bell")
    graph = whole_graph(PageContext(book, WORK), ways(book.notebook, book.analysis.route))
    assert [(loop.source, loop.target, loop.words) for loop in graph.loops] == [
        ("tune-bell", "turn-bell", "2 or 3 times")
    ]


@pytest.mark.parametrize(
    ("times", "words"),
    [
        ("about 2; max 3", "2 or 3 times"),
        ("about 2; max 5", "about 2 times, at most 5"),
        ("about 3..4", "about 3 to 4 times"),
        ("about 1", "about 1 time"),
        ("max 2", None),
    ],
)
def test_how_often_a_loop_runs(tmp_path: Path, times: str, words: str | None) -> None:
    book = book_written(
        f"""\
=== procedures/hammer.yml
procedure: hammer
title: Hammer it
steps: [Hammer.]
=== procedures/soften.yml
procedure: soften
title: Soften it
after: hammer
steps:
  - do: Heat it.
    checks:
      - {{good: It gives., fails: {{do: Go on., then: hammer, times: {times}}}}}
""",
        tmp_path,
    )
    loops = whole_graph(PageContext(book, WORK), ways(book.notebook, book.analysis.route)).loops
    assert [loop.words for loop in loops] == ([] if words is None else [words])


def test_a_first_procedure_without_any_part_is_on_the_map(tmp_path: Path) -> None:
    text = "=== procedures/peel.yml\nprocedure: peel\ntitle: Peel the bark\nsteps: [Peel.]\n"
    sheet = page(work_pages, book_written(text, tmp_path), WORK)
    assert "Peel the bark" in sheet.html
    assert "bl-drawing" in sheet.html


def test_an_empty_notebook_says_so(tmp_path: Path) -> None:
    sheet = page(work_pages, book_written("=== skills/people.yml\npeople: {ada: Ada Tarn}\n", tmp_path), WORK)
    assert "No procedure is written yet." in sheet.html


def test_of_too_much_work_there_is_a_list_and_each_part_has_its_own_map(tmp_path: Path) -> None:
    half = MOST_STOPS // 2 + 1
    files = ["=== procedures/shop.yml\nshop: big\ntitle: Big\nparts: {leg: Leg, seat: Seat}\n"]
    for part in ("leg", "seat"):
        for i in range(half):
            after = f"after: {part}-{i - 1}\n" if i else ""
            files.append(f"=== procedures/{part}/{part}-{i}.yml\nprocedure: {part}-{i}\n"
                         f"title: Do {part} {i}\n{after}steps: [Do it.]\n")
    book = book_written("".join(files), tmp_path)
    sheet = page(work_pages, book, WORK)
    assert "<svg" not in sheet.html
    assert sheet.html.count("Do leg ") == half
    assert [part.anchor for part in sheet.parts] == ["way-leg", "way-seat"]
    leg = page(part_pages, book, "the-work/leg/index.md")
    assert "bl-drawing" in leg.html
