"""Whole pages, compared with pages that somebody has looked at and found good.

They lie in ``expected/``. After a change that is meant, write them anew and read the difference before you
keep it:  ``BENCHLORE_NEW_PAGES=1 pytest tests/handbook``
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.handbook.site import Page, Site

NOTEBOOKS = Path(__file__).parent.parent / "notebooks"
EXPECTED = Path(__file__).parent / "expected"
TODAY = date(2026, 3, 2)
SWITCH = "BENCHLORE_NEW_PAGES"


@cache
def book_of(notebook: str) -> Site:
    """The book of one of the notebooks under ``tests/notebooks``, on a fixed day, without its pictures."""
    surveyed = analysis(NOTEBOOKS / notebook, TODAY)
    return Site(surveyed, tuple(examine(surveyed)))


def book_written(text: str, folder: Path) -> Site:
    """The book of a notebook written in the test itself: ``=== path`` before each file."""
    write_example(text, folder)
    surveyed = analysis(folder, TODAY)
    return Site(surveyed, tuple(examine(surveyed)))


def page(make: Callable[[Site], Iterator[Page]], site: Site, src_uri: str) -> Page:
    """The one sheet of a maker that lies at this address."""
    return next(sheet for sheet in make(site) if sheet.src_uri == src_uri)


def expect(sheet: Page, name: str) -> None:
    """The article is what ``expected/<name>.html`` says, line by line; blank lines do not count."""
    made = "".join(f"{line.strip()}\n" for line in sheet.html.splitlines() if line.strip())
    file = EXPECTED / f"{name}.html"
    if os.environ.get(SWITCH) == "1":
        file.parent.mkdir(exist_ok=True)
        file.write_text(made, encoding="utf-8")
    assert file.is_file(), f"{file.name} is not there yet: run once with {SWITCH}=1, look at it, and keep it"
    assert made.splitlines() == file.read_text("utf-8").splitlines()
