"""The pages of the book, one maker a chapter. A maker takes the book and yields its sheets.

Each maker works out plain values (`view`) and leaves the markup to a template under ``templates/``,
which is put together from the parts in ``theme/components.j2``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from site_builder.handbook.pages.catalogue import catalogue_pages
from site_builder.handbook.pages.changes import change_pages
from site_builder.handbook.pages.material import material_pages
from site_builder.handbook.pages.order import order_pages
from site_builder.handbook.pages.part import part_pages
from site_builder.handbook.pages.plain import plain_pages
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.reckoning import reckoning_pages
from site_builder.handbook.pages.season import season_pages
from site_builder.handbook.pages.start import start_pages
from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.pages.tellings import telling_pages
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.pages.thirty_years import thirty_years_pages
from site_builder.handbook.pages.tool import tool_pages
from site_builder.handbook.pages.tools_index import tools_pages
from site_builder.handbook.pages.trust import trust_pages
from site_builder.handbook.pages.unwritten import unwritten_pages
from site_builder.handbook.pages.words import word_pages
from site_builder.handbook.pages.work import work_pages
from site_builder.handbook.pages.writers import writer_pages
from site_builder.handbook.site import Page, Site

Maker = Callable[[Site], Iterator[Page]]

MAKERS: tuple[Maker, ...] = (
    start_pages,
    order_pages,
    work_pages,
    part_pages,
    procedure_pages,
    reckoning_pages,
    hand_pages,
    tools_pages,
    tool_pages,
    material_pages,
    plain_pages,
    whole_pages,
    season_pages,
    unwritten_pages,
    telling_pages,
    change_pages,
    word_pages,
    writer_pages,
    catalogue_pages,
    trust_pages,
    thirty_years_pages,
)
"""In the order of the book's chapters."""
