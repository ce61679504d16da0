"""Which pages of the handbook stand in the e-book, and in which order: the route through the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain

from site_builder.ebook.stories import story_pages
from site_builder.handbook.pages.changes import change_pages
from site_builder.handbook.pages.hands_index import hands_sheet
from site_builder.handbook.pages.lineage import lineage_sheet
from site_builder.handbook.pages.material import material_pages
from site_builder.handbook.pages.part import part_pages
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.person import person_sheet
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.reckoning import reckoning_pages
from site_builder.handbook.pages.skill import skill_sheet
from site_builder.handbook.pages.start import start_pages
from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.pages.tool import tool_pages
from site_builder.handbook.pages.tools_index import tools_pages
from site_builder.handbook.pages.unwritten import unwritten_pages
from site_builder.handbook.pages.words import word_pages
from site_builder.handbook.pages.work import work_pages
from site_builder.handbook.site import Page, Site
from site_builder.notebook.way import NO_PART, ways


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page and what stands below it in the contents."""

    page: Page
    below: tuple[Leaf, ...] = ()

    def all(self) -> Iterator[Page]:
        """The page and all below it, in the order of reading."""
        yield self.page
        for one in self.below:
            yield from one.all()


def leaves(site: Site) -> tuple[Leaf, ...]:
    """The chapters. What is of a day (orders, a season, sheets to fill in) is left to the handbook."""
    return (
        _chapter(start_pages(site), story_pages(site)),
        _work(site),
        _hands(site),
        _chapter(tools_pages(site), tool_pages(site), material_pages(site)),
        _chapter(whole_pages(site)),
        _chapter(unwritten_pages(site)),
        _chapter(change_pages(site)),
        _chapter(word_pages(site)),
    )


def _chapter(*pages: Iterable[Page]) -> Leaf:
    """The first page with all others below it."""
    first, *others = chain(*pages)
    return Leaf(first, _leaves(others))


def _leaves(pages: Iterable[Page]) -> tuple[Leaf, ...]:
    return tuple(map(Leaf, pages))


def _work(site: Site) -> Leaf:
    """The map, each part with the work on its way, and what several share."""
    work, *of_work = work_pages(site)
    parts = {page.src_uri: page for page in part_pages(site)}
    works = {page.src_uri: page for page in procedure_pages(site)}
    below: list[Leaf] = []
    for part, way in ways(site.notebook, site.analysis.route).items():
        on_its_way = _leaves(works.pop(site.addresses["procedure", one]) for one in way)
        if part == NO_PART:
            below += on_its_way
        else:
            below.append(Leaf(parts.pop(site.addresses["part", part]), on_its_way))
    return Leaf(work, (*_leaves(of_work), *below, *_leaves(works.values()), *_leaves(parts.values()),
                      *_leaves(reckoning_pages(site))))


def _hands(site: Site) -> Leaf:
    people_index = PeopleIndex(site)
    return Leaf(hands_sheet(people_index), _leaves([
        lineage_sheet(people_index),
        *(person_sheet(people_index, id_) for id_ in site.notebook.people),
        *(skill_sheet(people_index, id_) for id_ in site.notebook.skills),
    ]))
