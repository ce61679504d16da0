"""One file of the whole book: the same notebook on the same day gives the same bytes."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from site_builder.ebook.bound import Chapter, chapter, tie
from site_builder.ebook.chapters import Leaf, leaves
from site_builder.ebook.index import index_page
from site_builder.ebook.package import MAKER, About, Item, contents, frame, landmark_of, package
from site_builder.ebook.pictures import TYPES, Plates
from site_builder.ebook.press import TEMPLATES, pressing_chapters
from site_builder.handbook.site import Page, Site

_MOMENT = (1980, 1, 1, 0, 0, 0)
"""The earliest day that a ZIP file can tell; the real one stands in the package."""
_CONTAINER = """\
<?xml version="1.0" encoding="utf-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="book/package.opf" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""


@dataclass(frozen=True, slots=True)
class Book:
    """The chapters in the order of reading, tied to each other, with what they show."""

    about: About
    tree: tuple[Leaf, ...]
    chapters: tuple[Chapter, ...]
    plates: Mapping[str, bytes]


def bound_book(site: Site, language: str = "en") -> Book:
    """The handbook of ``site``, which knows its published pictures, as chapters."""
    with pressing_chapters():
        tree = (*leaves(site), Leaf(index_page(site)))
    chapters = tuple(_chapter(page) for leaf in tree for page in leaf.all())
    plates = Plates(site.pictures)
    tie(chapters, plates.path)
    return Book(About.of(site, language, chapters, plates.files), tree, chapters, plates.files)


def packed(book: Book) -> bytes:
    """A book as an EPUB 3.3 file."""
    about, plates = book.about, sorted(book.plates)
    items = [Item(one.path, "application/xhtml+xml", drawn=one.has_drawings, read=True) for one in book.chapters]
    items += [Item(path, TYPES[path[path.rindex("."):]]) for path in plates]
    return _zipped([
        ("META-INF/container.xml", _CONTAINER.encode()),
        ("book/package.opf", package(about, items).encode()),
        ("book/contents.xhtml", contents(about, book.tree).encode()),
        ("book/book.css", (TEMPLATES / "book.css").read_bytes()),
        *((f"book/{one.path}", frame(about, one, landmark_of(one.path)).encode()) for one in book.chapters),
        *((f"book/{path}", book.plates[path]) for path in plates),
    ])


def epub(site: Site, language: str = "en") -> bytes:
    """The handbook of ``site`` as an EPUB 3.3 file."""
    return packed(bound_book(site, language))


def is_ours(file: Path) -> bool:
    """Whether this file is an e-book that we made."""
    try:
        with zipfile.ZipFile(file) as book:
            return MAKER.encode() in book.read("book/package.opf")
    except (OSError, KeyError, zipfile.BadZipFile, NotImplementedError, RuntimeError):
        return False


def _chapter(page: Page) -> Chapter:
    return chapter(page.src_uri.removesuffix(".md") + ".xhtml", page.title, page.html)


def _zipped(files: list[tuple[str, bytes]]) -> bytes:
    """A ZIP file whose first entry says plainly what it is (EPUB 3.3, OCF ZIP container)."""
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as book:
        for name, data, packed in _entries(files):
            entry = zipfile.ZipInfo(name, _MOMENT)
            entry.external_attr = 0o644 << 16
            entry.create_system = 3  # the same on every machine
            entry.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
            book.writestr(entry, data, compresslevel=9 if packed else None)
    return out.getvalue()


def _entries(files: list[tuple[str, bytes]]) -> Iterator[tuple[str, bytes, bool]]:
    yield "mimetype", b"application/epub+zip", False
    for name, data in files:
        yield name, data, not name.endswith((".jpg", ".mp3", ".m4a"))
