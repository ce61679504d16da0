"""What a story points at: ids in double brackets, and files by ordinary Markdown links.

Code and comments are passed over, so that a story may show how a link is written.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator
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
    r"\]\(\s*(?P<target><[^<>\n]*>|[^()\s]*(?:\([^()\s]*\)[^()\s]*)*(?:[ ]+[^()\s\"'<]+)*)"
    r"(?:\s+(?:\"[^\"\n]*\"|'[^'\n]*'))?\s*\)"
)
IMAGE = re.compile(r"(?<!\\)!\[(?P<words>[^\[\]]*)" + _TARGET)
PAGE = re.compile(r"(?<![\\!\[])\[(?P<words>(?:[^\[\]]|\[[^\[\]]*\])*)" + _TARGET)
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
    for pattern in (IMAGE, PAGE, _DEFINED):
        for found in pattern.finditer(text):
            written = found["target"].strip("<>")
            if _OUTSIDE.match(written):
                continue
            links.append(FileLink(written, path_of(story.path, written), found["words"].strip(),
                                  _at(story, found.start("target")), pattern is IMAGE))
    yield from sorted(links, key=lambda link: link.at)


def path_of(story: str, target: str) -> str:
    """The path from the notebook's folder of what a story at the path ``story`` leads to."""
    name = unquote(re.split(r"[#?]", target.strip("<>"), maxsplit=1)[0])
    return ".." + name if name.startswith("/") else posixpath.normpath(posixpath.join(posixpath.dirname(story), name))


def without_code(text: str) -> str:
    """The text with code and comments blanked out; every other letter stays where it is."""
    if "`" not in text and "~~~" not in text and "<!--" not in text:
        return text
    return _CODE.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def changed_outside_code(text: str, change: Callable[[str], str]) -> str:
    """The text with every stretch that is no code and no comment changed."""
    pieces, at = [], 0
    for code in _CODE.finditer(text):
        pieces += [change(text[at : code.start()]), code[0]]
        at = code.end()
    return "".join((*pieces, change(text[at:])))


def _at(story: Story, index: int) -> At:
    return At(story.path, story.text.count("\n", 0, index) + 1, index - story.text.rfind("\n", 0, index))
