"""Changes to the way of working, before and after."""

from fractions import Fraction
from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page

from site_builder.handbook.book import CHANGES
from site_builder.handbook.pages.changes import change_sheets
from site_builder.quantity import parse_value
from site_builder.quantity.share import share


def test_the_pages_as_they_were_found_good() -> None:
    forge = book_of("hook-forge")
    expect(page(change_sheets, forge, CHANGES), "changes")
    expect(page(change_sheets, forge, "changes/fewer-blows.md"), "change")


@pytest.mark.parametrize(
    ("written", "part"),
    [
        ("4 %", Fraction(1, 25)),
        ("9 pieces per 200 pieces", Fraction(9, 200)),
        ("about 5 pieces per 100 pieces", Fraction(1, 20)),
        ("0 pieces per 260 pieces", Fraction(0)),
        ("max 3 %", None),  # a limit is no count
        ("120 %", None),
        ("2 mm per 100 mm", None),  # a slope is no share of a whole
        ("1 belt per 120 pieces", None),
        ("about 4 min", None),
        ("ask", None),
    ],
)
def test_which_values_tell_a_share(written: str, part: Fraction | None) -> None:
    assert share(parse_value(written)) == part


def test_the_newest_change_comes_first(tmp_path: Path) -> None:
    notebook = "".join(f"=== procedures/changes/c{year}.yml\nchange: c{year}\ntitle: In {year}\ndate: {year}\n"
                       for year in (1987, 2024, 2001))
    html = page(change_sheets, book_written(notebook, tmp_path), CHANGES).html
    assert html.index("In 2024") < html.index("In 2001") < html.index("In 1987")


def test_a_figure_that_is_not_counted_yet_says_so(tmp_path: Path) -> None:
    notebook = "=== procedures/changes/c.yml\nchange: c\ntitle: C\nresults: {time: {old: 3 min, new: ask}}\n"
    html = page(change_sheets, book_written(notebook, tmp_path), "changes/c.md").html
    assert '<a class="bl-untold" href="../still-unwritten.html#q-procedures-changes-c-yml-3">not yet told</a>' in html
