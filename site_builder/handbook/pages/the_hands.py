"""The chapter of the hands: its index, the lineage, what would be lost, and a page for each skill and each person."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.handbook.book import Book, Sheet
from site_builder.handbook.pages.checklist import checklist_sheet
from site_builder.handbook.pages.hands_index import hands_sheet
from site_builder.handbook.pages.lessons import lessons_sheet
from site_builder.handbook.pages.lineage import lineage_sheet
from site_builder.handbook.pages.person import person_sheet
from site_builder.handbook.pages.procedure_scribe import Common, common
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.skill import skill_sheet
from site_builder.handbook.pages.study import study_sheet
from site_builder.handbook.pages.without import without_sheet


def hand_sheets(book: Book) -> Iterator[Sheet]:
    """All pages of people and skills."""
    roll = Roll(book)
    yield hands_sheet(roll)
    yield lineage_sheet(roll)
    yield without_sheet(roll)
    yield lessons_sheet(roll)
    for id_ in book.notebook.skills:
        yield skill_sheet(roll, id_)
    for id_ in book.notebook.people:
        yield person_sheet(roll, id_)
    shared = common(book)
    for id_ in book.notebook.skills:
        if ("study", id_) in book.addresses:
            yield book.remember("study", id_, partial(_study, roll, shared, id_))
        paper = checklist_sheet(roll, id_)
        if paper is not None:
            yield paper


def _study(roll: Roll, shared: Common, id_: str) -> Sheet:
    sheet = study_sheet(roll, shared, id_)
    assert sheet is not None  # it has an address
    return sheet
