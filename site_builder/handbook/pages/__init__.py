"""The pages of the book, one maker a chapter. A maker takes the book and yields its sheets.

Each maker works out plain values (`view`) and leaves the markup to a template under ``templates/``,
which is put together from the parts in ``theme/components.j2``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from site_builder.handbook.book import Book, Sheet
from site_builder.handbook.pages.catalogue import catalogue_sheets
from site_builder.handbook.pages.changes import change_sheets
from site_builder.handbook.pages.material import material_sheets
from site_builder.handbook.pages.order import order_sheets
from site_builder.handbook.pages.part import part_sheets
from site_builder.handbook.pages.procedure import procedure_sheets
from site_builder.handbook.pages.start import start_sheets
from site_builder.handbook.pages.staying_whole import whole_sheets
from site_builder.handbook.pages.the_hands import hand_sheets
from site_builder.handbook.pages.tool import tool_sheets
from site_builder.handbook.pages.tools_index import tools_sheets
from site_builder.handbook.pages.trust import trust_sheets
from site_builder.handbook.pages.unwritten import unwritten_sheets
from site_builder.handbook.pages.words import word_sheets
from site_builder.handbook.pages.work import work_sheets
from site_builder.handbook.pages.writers import writer_sheets

Maker = Callable[[Book], Iterator[Sheet]]

MAKERS: tuple[Maker, ...] = (
    start_sheets,
    order_sheets,
    work_sheets,
    part_sheets,
    procedure_sheets,
    hand_sheets,
    tools_sheets,
    tool_sheets,
    material_sheets,
    whole_sheets,
    unwritten_sheets,
    change_sheets,
    word_sheets,
    writer_sheets,
    catalogue_sheets,
    trust_sheets,
)
"""In the order of the book's chapters."""
