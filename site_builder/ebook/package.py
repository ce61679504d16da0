"""What the e-book says of itself: package document, contents, and the frame around each chapter (EPUB 3.3)."""

from __future__ import annotations

import posixpath
import re
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.ebook.bound import Chapter
from site_builder.ebook.chapters import Leaf
from site_builder.ebook.press import templates
from site_builder.handbook.seals import seal_line
from site_builder.handbook.site import Page, Site
from site_builder.handbook.trusted import trusted
from site_builder.views.dates import dated_day
from site_builder.views.typeset import typeset

MAKER = '<meta name="generator" content="benchlore"/>'
"""By this line of the package we know a book of ours again."""
_OURS = uuid.UUID("2a1f3f0e-6c1b-5b0e-9a63-6f2f6b8f6a11")
"""Under this name the identifiers of books are reckoned: the same shop keeps the same one from edition to edition."""


@dataclass(frozen=True, slots=True)
class Item:
    """A file of the book. ``read``: a page in the order of reading."""

    path: str
    type: str
    drawn: bool = False
    read: bool = False

    @property
    def id(self) -> str:
        """Its name within the package."""
        return "f-" + re.sub(r"[^A-Za-z0-9.-]", lambda found: f"_{ord(found[0]):x}_", self.path)


@dataclass(frozen=True, slots=True)
class About:
    """The book as a whole."""

    title: str
    language: str
    identifier: str
    day: str
    edition: str
    makers: tuple[str, ...]
    seal: str
    sounds: bool
    pictures: bool
    undescribed: int
    """Pictures without words for who cannot see them."""

    @classmethod
    def of(cls, site: Site, language: str, chapters: Sequence[Chapter], files: Mapping[str, bytes]) -> About:
        """Read off the notebook and what was made of it."""
        nb = site.notebook
        title = typeset(str(nb.shop.title)) if nb.shop is not None and nb.shop.title else "The handbook"
        makers = tuple(typeset(str(one.name)) for one in nb.people.values() if one.founding in ("yes", "true"))
        today = site.analysis.today
        shown = [one for chapter in chapters for one in chapter.tree.iter("img")]
        return cls(
            title, language, f"urn:uuid:{uuid.uuid5(_OURS, title)}", today.isoformat(), dated_day(today), makers,
            seal_line(site.analysis), any(path.endswith((".mp3", ".m4a")) for path in files),
            bool(shown) or any(one.has_drawings for one in chapters),
            sum(not (one.get("alt") or "").strip() for one in shown),
        )


def package(about: About, items: Sequence[Item]) -> str:
    """The package document."""
    return templates().get_template("package.opf.j2").render(about=about, items=items, maker=trusted(MAKER))


def contents(about: About, tree: Sequence[Leaf]) -> str:
    """The navigation document: contents, and where the book and its index begin."""
    return templates().get_template("contents.xhtml.j2").render(
        about=about, tree=tree, path=_path, first=_path(tree[0].page), last=_path(tree[-1].page))


def frame(about: About, chapter: Chapter, kind: str) -> str:
    """A chapter as a file of its own."""
    up = posixpath.relpath(".", posixpath.dirname(chapter.path) or ".")
    return templates().get_template("chapter.xhtml.j2").render(
        about=about, title=chapter.title, kind=kind, up=up, body=chapter.body())


def landmark_of(path: str) -> str:
    """What a chapter is to readers that tell its kind."""
    return {"words.xhtml": "glossary", "index-of-things.xhtml": "index"}.get(path, "chapter")


def _path(page: Page) -> str:
    return page.src_uri.removesuffix(".md") + ".xhtml"
