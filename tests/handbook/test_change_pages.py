"""Changes to the way of working, before and after."""

from fractions import Fraction
from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.changes import change_pages
from site_builder.handbook.site import CHANGES
from site_builder.quantity import parse_value
from site_builder.quantity.share import share


def test_the_pages_as_they_were_found_good() -> None:
    forge = book_of("hook-forge")
    expect(page(change_pages, forge, CHANGES), "changes")
    expect(page(change_pages, forge, "changes/fewer-blows.md"), "change")


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
    html = page(change_pages, book_written(notebook, tmp_path), CHANGES).html
    assert html.index("In 2024") < html.index("In 2001") < html.index("In 1987")


def test_a_figure_that_is_not_counted_yet_says_so(tmp_path: Path) -> None:
    notebook = "=== procedures/changes/c.yml\nchange: c\ntitle: C\nresults: {time: {old: 3 min, new: ask}}\n"
    html = page(change_pages, book_written(notebook, tmp_path), "changes/c.md").html
    assert '<a class="bl-untold" href="../still-unwritten.html#q-procedures-changes-c-yml-3">not yet told</a>' in html


def test_what_the_figures_mean_is_said_under_them(tmp_path: Path) -> None:
    """Of 380, 41 came back broken and none of 380 since: Fisher's exact test gives less than one in a million."""
    book = book_written("""\
=== procedures/shop.yml
shop: s
title: S
parts: {box: Box}
products: {set: {title: Set, of: {box: 2}}}
=== procedures/orders/spring.yml
order: spring
title: Spring
product: set
pieces: 130
=== procedures/pack.yml
procedure: pack
title: Pack
part: box
steps: Lay it in.
=== procedures/changes/pin.yml
change: pin
title: A pin
covers: pack
results:
  broken boxes: {old: 41 pieces per 380 pieces, new: 0 pieces per 380 pieces}
  time for one box: {old: 4 min, new: 4.5 min}
  mass: {old: about 9 g, new: about 6 g}
""", tmp_path)
    told = Markup(page(change_pages, book, "changes/pin.md").html).striptags()
    assert "41 of 380 before and none of 380 since; chance alone does not do that." in told
    assert "The change costs 2 h 10 min on a batch of 260 (30 s a piece)." in told
    assert told.count("chance alone") == 1
