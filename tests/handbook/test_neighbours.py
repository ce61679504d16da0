"""Before and next, and what stands beside a page in the contents."""

from __future__ import annotations

from site_builder.handbook.neighbours import SHOWN, Neighbour, beside
from site_builder.handbook.site import Page


def shelf(*addresses: str) -> list[Page]:
    return [Page(address, address.rpartition("/")[2].removesuffix(".md").title(), "") for address in addresses]


def test_a_page_has_its_shelf_and_the_pages_before_and_after() -> None:
    found = beside(shelf("index.md", "the-tools/index.md", "the-tools/adze.md", "the-tools/froe.md", "words.md"))
    adze = found["the-tools/adze.md"]
    assert adze.before == Neighbour("Index", "the-tools/index.html")
    assert adze.after == Neighbour("Froe", "the-tools/froe.html")
    assert [one.title for one in adze.siblings] == ["Index", "Adze", "Froe"]
    assert found["the-tools/froe.md"].after is None
    assert "words.md" not in found  # a chapter: MkDocs knows what comes before and after


def test_sums_and_history_are_reached_from_their_page_of_work_alone() -> None:
    found = beside(shelf("the-work/leg/turn.md", "the-work/leg/turn-reckoning.md", "the-work/leg/sand.md"))
    assert found["the-work/leg/turn.md"].after == Neighbour("Sand", "the-work/leg/sand.html")
    assert "the-work/leg/turn-reckoning.md" not in found


def test_of_a_long_shelf_the_nearest_are_shown() -> None:
    found = beside(shelf(*(f"the-tools/t{n:02}.md" for n in range(40))))
    assert [one.title for one in found["the-tools/t20.md"].siblings] == [f"T{n}" for n in range(14, 27)]
    assert len(found["the-tools/t00.md"].siblings) == len(found["the-tools/t39.md"].siblings) == SHOWN
    assert found["the-tools/t39.md"].siblings[-1].title == "T39"
