"""Which entries of the books still stand: a wrong one is not rewritten but answered by a later one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import TypeVar

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.index import Place
from site_builder.notebook.model.records import Record
from site_builder.notebook.notebook import Notebook
from site_builder.skills.entry_dates import answered_in

R = TypeVar("R", bound=Record)

def answered(notebook: Notebook) -> frozenset[str]:
    """The entries that a later one of the same book corrects or withdraws, as `practice 31`."""
    return frozenset(f"{book} {number}" for book, entries in notebook.books.items() for number in answered_in(entries))


def standing(analysis: Analysis, book: type[R]) -> Iterator[tuple[R, Place]]:
    """The entries of a book that no later one corrects or withdraws, in order."""
    gone = answered(analysis.notebook)
    for entry, place in analysis.index.of(book):
        if place.owner_id not in gone:
            yield entry, place


def whole(notebook: Notebook, entry: Record) -> bool:
    """True where every entry of the file that this one stands in could be read."""
    return PurePosixPath(entry.at.path).stem not in notebook.unread
