"""What a story points at: ids in double brackets, and files by ordinary Markdown links.

Code and comments are passed over, so that a story may show how a link is written.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from mimetypes import guess_type
from urllib.parse import unquote

from site_builder.notebook.finding import At
from site_builder.notebook.notebook import Story
from site_builder.notebook.references import LINK

_CODE = re.compile(
    r"^ {0,3}(?P<fence>`{3,}+|~{3,}+)[^\n]*\n.*?(?:^ {0,3}(?P=fence)|\Z)"
    r"|(?<!`)(?P<ticks>`+)(?!`).+?(?<!`)(?P=ticks)(?!`)"
    r"|<!--",
    re.MULTILINE | re.DOTALL,
)
_TARGET = (
    r"\]\(\s*+(?P<target><[^<>\n]*>|[^()\s]*(?:\([^()\s]*\)[^()\s]*)*(?:[ ]+[^()\s\"'<]+)*)"
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


@dataclass(frozen=True, slots=True)
class Foreign:
    """An address in a story that leads out of the book, or something that would act on the page."""

    written: str
    at: At


_HTML = re.compile(r"(?<!\\)<(?:[a-z][a-z0-9-]*(?=[\s/>])[^<>]*>|![a-z]|\?)", re.IGNORECASE)
_USED = re.compile(r"(?<!\\)!\[(?P<words>[^\[\]]*)\](?:\[(?P<name>[^\[\]]*)\])?")
_MORE_MEDIA = (".heic", ".heif", ".avif", ".webp", ".flac", ".opus", ".m4a", ".mov", ".webm", ".mkv")
"""Names that not every system knows."""
_BLANKS = re.compile(r"[\x00-\x20]")
_ACTING = re.compile(r"(?:javascript|data|vbscript|file|blob|about):", re.IGNORECASE)


def html_in(story: Story) -> Iterator[Foreign]:
    """Every element of HTML that a story opens."""
    for found in _HTML.finditer(without_code(story.text)):
        yield Foreign(found[0].split("\n", maxsplit=1)[0], _at(story, found.start()))


def outside_pictures(story: Story) -> Iterator[Foreign]:
    """Every picture of a story that would be fetched from outside, where its address stands."""
    text = without_code(story.text)
    shown = {(found["name"] or found["words"]).strip().lower() for found in _USED.finditer(text)}
    for pattern in (IMAGE, _DEFINED):
        for found in pattern.finditer(text):
            written = found["target"].strip("<>")
            if not _leads_out(written) or (pattern is _DEFINED and found["words"].strip().lower() not in shown):
                continue
            yield Foreign(written, _at(story, found.start("target")))


def acting_links(story: Story) -> Iterator[Foreign]:
    """Every link whose address would run something, or open a file of the reader's machine."""
    text = without_code(story.text)
    for pattern in (PAGE, _DEFINED):
        for found in pattern.finditer(text):
            written = found["target"].strip("<>")
            if _ACTING.match(_BLANKS.sub("", written)):
                yield Foreign(written, _at(story, found.start("target")))


def _leads_out(written: str) -> bool:
    return re.match(r"[a-z][a-z0-9+.-]*:|[\\/]{2}", _BLANKS.sub("", written), re.IGNORECASE) is not None


_OPEN_ANYWHERE = (".pdf", ".txt", ".csv")


def opens_anywhere(path: str) -> bool:
    """Whether a file of this name opens in thirty years on a machine that has nothing but a browser."""
    return path.lower().endswith(_OPEN_ANYWHERE)


def is_media(path: str) -> bool:
    """Whether a file is, by its name, a picture or a recording: what goes out only as it is published."""
    kind, _ = guess_type(path)
    return (kind or "").startswith(("image/", "audio/", "video/")) or path.lower().endswith(_MORE_MEDIA)


def path_of(story: str, target: str) -> str:
    """The path from the notebook's folder of what a story at the path ``story`` leads to."""
    name = unquote(re.split(r"[#?]", target.strip("<>"), maxsplit=1)[0])
    return ".." + name if name.startswith("/") else posixpath.normpath(posixpath.join(posixpath.dirname(story), name))


def without_code(text: str) -> str:
    """The text with code and comments blanked out; every other letter stays where it is."""
    if "`" not in text and "~~~" not in text and "<!--" not in text:
        return text
    return _changed(text, lambda found: re.sub(r"[^\n]", " ", found))


def _changed(text: str, change: Callable[[str], str]) -> str:
    """The text with each piece of code and each comment changed."""
    parts: list[str] = []
    kept, at, closed = 0, 0, True
    while (found := _CODE.search(text, at)) is not None:
        at = found.end()
        if found[0] == "<!--":
            end = text.find("-->", at) if closed else -1
            closed = end >= 0
            if not closed:  # nor is any later one, which is not looked for again
                continue
            at = end + len("-->")
        parts += [text[kept : found.start()], change(text[found.start() : at])]
        kept = at
    return "".join(parts) + text[kept:]


def without_comments(text: str) -> str:
    """The text without its comments; those shown within code stay."""
    return _changed(text, lambda found: "" if found.startswith("<!--") else found)


def _at(story: Story, index: int) -> At:
    return At(story.path, story.text.count("\n", 0, index) + 1, index - story.text.rfind("\n", 0, index))
