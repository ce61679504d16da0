"""The pages of the book, one maker a chapter. A maker takes the book and yields its sheets.

Each maker works out plain values (`view`) and leaves the markup to a template under ``templates/``,
which is put together from the parts in ``theme/components.j2``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from site_builder.handbook.book import Book, Sheet

Maker = Callable[[Book], Iterator[Sheet]]

MAKERS: tuple[Maker, ...] = ()
"""In the order of the book's chapters."""
