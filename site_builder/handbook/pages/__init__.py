"""The pages of the book, one maker a chapter. A maker takes the book and yields its sheets.

Each maker works out plain values (`view`) and leaves the markup to a template under ``templates/``,
which is put together from the parts in ``theme/components.j2``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from site_builder.handbook.book import Book, Sheet
from site_builder.handbook.pages.material import material_sheets
from site_builder.handbook.pages.part import part_sheets
from site_builder.handbook.pages.staying_whole import whole_sheets
from site_builder.handbook.pages.tool import tool_sheets
from site_builder.handbook.pages.tools_index import tools_sheets
from site_builder.handbook.pages.work import work_sheets

Maker = Callable[[Book], Iterator[Sheet]]

MAKERS: tuple[Maker, ...] = (
    work_sheets,
    part_sheets,
    tools_sheets,
    tool_sheets,
    material_sheets,
    whole_sheets,
)
"""In the order of the book's chapters."""
