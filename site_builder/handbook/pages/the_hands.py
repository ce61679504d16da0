"""The chapter of the hands: its index, the lineage, what would be lost, and a page for each skill and each person."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.handbook.pages.checklist import checklist_sheet
from site_builder.handbook.pages.hands_index import hands_sheet
from site_builder.handbook.pages.lessons import lessons_sheet
from site_builder.handbook.pages.lineage import lineage_sheet
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.person import person_sheet
from site_builder.handbook.pages.skill import skill_sheet
from site_builder.handbook.pages.study import study_sheet
from site_builder.handbook.pages.without import without_sheet
from site_builder.handbook.site import Page, Site


def hand_pages(site: Site) -> Iterator[Page]:
    """All pages of people and skills."""
    people_index = PeopleIndex(site)
    yield hands_sheet(people_index)
    yield lineage_sheet(people_index)
    yield without_sheet(people_index)
    yield lessons_sheet(people_index)
    for id_ in site.notebook.skills:
        yield skill_sheet(people_index, id_)
    for id_ in site.notebook.people:
        yield person_sheet(people_index, id_)
    for id_ in site.notebook.skills:
        if ("study", id_) in site.addresses:
            yield site.remember("study", id_, partial(_study, id_=id_))
        paper = checklist_sheet(people_index, id_)
        if paper is not None:
            yield paper


def _study(site: Site, id_: str) -> Page:
    sheet = study_sheet(site, id_)
    assert sheet is not None  # it has an address
    return sheet
