"""What the finder knows: one record a page and one a step, written from the data and not read off the HTML.

Material's search plugin reads every finished page again to build its index: 3.7 ms and 7 kB for a page of
six steps, and the steps come out as one long result (measured, mkdocs-material 9.8.2). Pages made here
switch that off (``page.meta["search"] = {"exclude": True}``) and hand over records instead. Opened from a
disk the whole index is read anew on every page, so its size is the reader's waiting time: 12.8 MB took
4 to 5 s (measured), and 3 MB is the aim.
"""

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from json.encoder import encode_basestring_ascii
from pathlib import Path
from typing import TypedDict

from markupsafe import Markup, escape

WHOLE = 3_000_000  # bytes aimed at for the index of the whole book
LEAST, MOST = 1_500, 8_000  # bytes for one page, however many or few there are
SHORTEST = 24  # bytes of a title where there is no room for the whole of it
ALWAYS = 160  # bytes of a page's own text that are kept even when its titles fill the room

_FRAME = len('{"location":"","title":"","text":""},')


class Entry(TypedDict):
    """One record as Material's finder reads it; ``location`` is relative to the root of the site."""

    location: str
    title: str
    text: str


@dataclass(frozen=True)
class Part:
    """A place on a page that can be found by itself: a step, a trouble, a word of the glossary."""

    anchor: str
    title: str
    text: str = ""


def share(pages: int) -> int:
    """Bytes of the index that one page may take when the book has so many: a small book loses nothing."""
    return max(LEAST, min(MOST, WHOLE // max(pages, 1)))


def page_entries(url: str, title: str, text: str, parts: Sequence[Part], room: int = LEAST) -> list[Entry]:
    """The records of one page, in ``room`` bytes of JSON: first every title, then texts as they stand.

    ``url`` is the page's address from the root of the site. Titles and texts may hold tags; these are
    dropped. No title is left out, nor the beginning of the page's own text. Where all titles do not go into the
    room they are cut down to their first words, and a page of very many steps still takes more than its room.
    Give no parts for headings that every page has: they find nothing.
    """
    entries: list[Entry] = [Entry(location=url, title=_words(title), text="")]
    entries += [Entry(location=f"{url}#{part.anchor}", title=_words(part.title), text="") for part in parts]
    left = room - sum(map(_size, entries))
    if left < ALWAYS and parts:
        bare = sum(_size(entry) - _length(entry["title"]) for entry in entries)
        each = max(SHORTEST, (room - ALWAYS - bare) // len(entries))
        for entry in entries[1:]:
            entry["title"] = _cut(entry["title"], each)
        left = room - sum(map(_size, entries))
    left = max(ALWAYS, left)
    for entry, words in zip(entries, (text, *(part.text for part in parts)), strict=True):
        if left <= 0:
            break
        entry["text"] = _cut(_words(words), left)
        left -= _length(entry["text"])
    return entries


def write_entries(site_dir: Path, entries: Iterable[Entry]) -> None:
    """Add records to the index that the search plugin has written; without one there is nothing to do.

    Call it from ``on_post_build`` after the search plugin (priority 0) and before the offline plugin
    (priority -100), which copies the file.
    """
    path = site_dir / "search" / "search_index.json"
    if not path.is_file():
        return
    index = json.loads(path.read_text(encoding="utf-8"))
    index["docs"].extend(entries)
    path.write_text(json.dumps(index, separators=(",", ":")), encoding="utf-8")


def _words(html: str) -> str:
    """Text without tags and in one line, escaped: Material puts titles and texts into the page as HTML."""
    if "<" not in html and "&" not in html:
        return str(escape(" ".join(html.split())))
    return str(escape(Markup(html).striptags()))


def _cut(text: str, room: int) -> str:
    """As many whole words of a text as go into ``room`` bytes of JSON."""
    if _length(text) <= room:
        return text
    return " ".join(_fitting(text.split(), room))


def _fitting(words: list[str], room: int) -> Iterator[str]:
    for word in words:
        room -= _length(word) + 1
        if room < 0:
            return
        yield word


def _length(text: str) -> int:
    """Bytes of a text within the quotes of JSON."""
    return len(encode_basestring_ascii(text)) - 2


def _size(entry: Entry) -> int:
    """Bytes of a record and the comma after it."""
    return _FRAME + _length(entry["location"]) + _length(entry["title"]) + _length(entry["text"])
