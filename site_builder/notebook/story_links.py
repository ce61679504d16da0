"""What a story points at: ids in double brackets, and files by ordinary Markdown links.

Code and comments are passed over, so that a story may show how a link is written.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import unquote

from site_builder.notebook.finding import At
from site_builder.notebook.notebook import Story
from site_builder.notebook.references import LINK

_CODE = re.compile(
    r"^ {0,3}(?P<fence>`{3,}|~{3,})[^\n]*\n.*?(?:^ {0,3}(?P=fence)|\Z)"
    r"|(?<!`)(?P<ticks>`+)(?!`).+?(?<!`)(?P=ticks)(?!`)"
    r"|<!--.*?-->",
    re.MULTILINE | re.DOTALL,
)
_TARGET = (
    r"\]\(\s*(?P<target><[^<>\n]*>|[^()\s]*(?:\([^()\s]*\)[^()\s]*)*)"
    r"(?:\s+(?:\"[^\"\n]*\"|'[^'\n]*'))?\s*\)"
)
_IMAGE = re.compile(r"(?<!\\)!\[(?P<words>[^\[\]]*)" + _TARGET)
_PAGE = re.compile(r"(?<![\\!\[])\[(?P<words>(?:[^\[\]]|\[[^\[\]]*\])*)" + _TARGET)
_DEFINED = re.compile(r"^ {0,3}\[(?P<words>[^\[\]^][^\[\]]*)\]:\s*(?P<target><[^<>\n]*>|\S+)", re.MULTILINE)
_OUTSIDE = re.compile(r"[a-z][a-z0-9+.-]*:|//|#|$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class FileLink:
    """A link or an image of a story that leads to a file of the notebook.

    ``path`` is that of the file from the notebook's folder; it begins with ``..`` if it leads out of it.
    """

    written: str
    path: str
    words: str
    at: At
    image: bool


def ids_in(story: Story) -> Iterator[tuple[str, At]]:
    """Every ``[[id]]`` of a story and where it stands."""
    for found in LINK.finditer(without_code(story.text)):
        yield found[1].strip(), _at(story, found.start())


def files_in(story: Story) -> Iterator[FileLink]:
    """Every relative link and image of a story, in order; addresses and marks on the same page left out."""
    text = without_code(story.text)
    links = []
    for pattern in (_IMAGE, _PAGE, _DEFINED):
        for found in pattern.finditer(text):
            written = found["target"].strip("<>")
            if _OUTSIDE.match(written):
                continue
            name = unquote(re.split(r"[#?]", written, maxsplit=1)[0])
            folder = posixpath.dirname(story.path)
            path = ".." + name if name.startswith("/") else posixpath.normpath(posixpath.join(folder, name))
            links.append(FileLink(written, path, found["words"].strip(), _at(story, found.start("target")),
                                  pattern is _IMAGE))
    yield from sorted(links, key=lambda link: link.at)


def without_code(text: str) -> str:
    """The text with code and comments blanked out; every other letter stays where it is."""
    if "`" not in text and "~~~" not in text and "<!--" not in text:
        return text
    return _CODE.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def _at(story: Story, index: int) -> At:
    return At(story.path, story.text.count("\n", 0, index) + 1, index - story.text.rfind("\n", 0, index))
