"""Papers of small shops, each made once for all tests."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from site_builder.analysis.analysis import analysis
from site_builder.paper.book import Paper, make_book

TODAY = date(2026, 11, 25)
NOTEBOOKS = Path(__file__).parent.parent / "notebooks"

BookOf = Callable[[str, Paper], Path]


@pytest.fixture(scope="session")
def book_of(tmp_path_factory: pytest.TempPathFactory) -> BookOf:
    """The book of a notebook of the tests, on a size of paper."""
    folder = tmp_path_factory.mktemp("books")

    @cache
    def made(name: str, paper: Paper) -> Path:
        out = folder / f"{name.replace('/', '-')}-{paper}.pdf"
        out.write_bytes(make_book(analysis(NOTEBOOKS / name, TODAY), paper=paper).data)
        return out

    return made


def opened(file: Path) -> pikepdf.Pdf:
    """The PDF as an independent library reads it."""
    return pikepdf.open(file)
