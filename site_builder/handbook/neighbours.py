"""What stands beside a page in the book: the page before, the page after, and those of the same shelf."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.handbook.site import Page

SHOWN = 13
"""So many pages of a shelf stand in the contents, those nearest to the page."""


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A page by title and address from the root of the site."""

    title: str
    url: str


@dataclass(frozen=True, slots=True)
class Beside:
    """``siblings`` are those of the same shelf, the page itself among them."""

    before: Neighbour | None
    after: Neighbour | None
    siblings: tuple[Neighbour, ...]


def beside(sheets: Sequence[Page]) -> Mapping[str, Beside]:
    """The neighbours of every page that is no chapter, by its address; a shelf is a folder of the book."""
    shelves: dict[str, list[Page]] = {}
    for sheet in sheets:
        if sheet.src_uri.endswith("-reckoning.md"):
            continue  # one touch from its page of work, and nowhere else
        shelves.setdefault(posixpath.dirname(sheet.src_uri), []).append(sheet)
    found: dict[str, Beside] = {}
    for folder, shelf in shelves.items():
        if not folder:
            continue
        for at, sheet in enumerate(shelf):
            first = max(0, min(at - SHOWN // 2, len(shelf) - SHOWN))
            found[sheet.src_uri] = Beside(
                _of(shelf[at - 1]) if at else _front(shelves, folder), _of(shelf[at + 1]) if at + 1 < len(shelf)
                else None, tuple(_of(one) for one in shelf[first:first + SHOWN]))
    return found


def _front(shelves: Mapping[str, Sequence[Page]], folder: str) -> Neighbour | None:
    """What leads to the first page of a shelf: the front page of the folder above."""
    above = posixpath.dirname(folder)
    return next((_of(one) for one in shelves.get(above, ()) if one.src_uri == posixpath.join(above, "index.md")), None)


def _of(sheet: Page) -> Neighbour:
    return Neighbour(sheet.title, sheet.src_uri.removesuffix(".md") + ".html")
