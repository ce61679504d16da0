"""The shop's own Markdown pages: links to things of the notebook, and pictures without their secrets."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from pathlib import Path

from site_builder.handbook.book import Book
from site_builder.handbook.pen import Pen
from site_builder.handbook.pictures import media_html
from site_builder.notebook.references import LINK

_IMAGE = re.compile(r"!\[(?P<alt>[^\]]*)\]\((?P<path>[^)\s]+)(?:\s+\"[^\"]*\")?\)")


def story_pictures(book: Book) -> Iterator[Path]:
    """The pictures that stories show."""
    for story in book.notebook.stories:
        for found in _IMAGE.finditer(story.text):
            yield _file(book, story.path, found["path"])


def story_markdown(book: Book, src_uri: str, markdown: str) -> str:
    """``[[id]]`` becomes a link, a picture its published form."""
    pen = Pen(book, src_uri)

    def link(found: re.Match[str]) -> str:
        words = pen.words(found[0], glossary=False)
        return str(words)

    def image(found: re.Match[str]) -> str:
        published = book.pictures.get(_file(book, f"procedures/{src_uri}", found["path"]))
        if published is None or published.problem is not None:
            return found[0]
        return f'<figure class="bl-photo">{media_html(published, found["alt"], pen.root)}</figure>'

    return _IMAGE.sub(image, LINK.sub(link, markdown))


def _file(book: Book, story: str, target: str) -> Path:
    return book.notebook.root / posixpath.normpath(posixpath.join(posixpath.dirname(story), target))
