"""What the finder knows: a record a page, and one a place on it, written from the data and not read off the HTML.

Opened from a disk the words are read anew on every page on which somebody looks for something, so their size is the
reader's waiting time: a page of a large book gets so many bytes and no more.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import unescape
from pathlib import Path

from site_builder.handbook.trusted import trusted

WHOLE = 2_800_000  # bytes aimed at for the words of the whole book
LEAST, MOST = 1_400, 4_000  # bytes for one page, however many or few there are
SHORTEST = 24  # bytes of a title where there is no room for the whole of it
ALWAYS = 160  # bytes of a page's own text that are kept even when its titles fill the room
WORDS_OF_THE_BOOK = "search/words.js"

_FRAME = len('["","","",""],')
_HEADING = re.compile(r'<h[1-3] id="([^"]+)">((?:(?!<h[1-3] ).)*?)</h[1-3]>', re.DOTALL)


@dataclass(frozen=True)
class Part:
    """A place on a page that can be found by itself: a step, a trouble, a limit, a word of the glossary."""

    anchor: str
    title: str
    text: str = ""
    kind: str = ""
    """What a reader is told it is: ``Trouble``, ``Limit``, ``Step``, ``Danger``, ``Word``; empty for any other."""


@dataclass(frozen=True)
class Record:
    """A page: its address from the root of the site, what it is about, its chapter, its places."""

    url: str
    title: str
    text: str
    chapter: str
    parts: tuple[Part, ...]


def share(pages: int) -> int:
    """Bytes of the words that one page may take when the book has so many: a small book loses nothing."""
    return max(LEAST, min(MOST, WHOLE // max(pages, 1)))


def page_record(url: str, title: str, text: str, parts: Sequence[Part], chapter: str = "",
                room: int = LEAST) -> Record:
    """The record of one page, in ``room`` bytes of JSON: first every title, then texts as they stand.

    Titles and texts may hold tags; these are dropped. No title is left out, nor the beginning of the page's own
    text. Where all titles do not go into the room they are cut down to their first words, and a page of very many
    steps still takes more than its room. Give no parts for headings that every page has: they find nothing.
    """
    titles = [_named(title), *(_named(part.title) for part in parts)]
    texts = [_words(text), *(_words(part.text) for part in parts)]
    bare = _FRAME + _length(url) + _length(chapter) + sum(
        _FRAME + _length(part.anchor) + _length(part.kind) for part in parts)
    left = room - bare - sum(map(_length, titles))
    if left < ALWAYS and parts:
        each = max(SHORTEST, (room - ALWAYS - bare) // len(titles))
        titles[1:] = [_cut(one, each) for one in titles[1:]]
        left = room - bare - sum(map(_length, titles))
    left = max(ALWAYS, left)
    kept = []
    for words in texts:
        kept.append(_cut(words, left) if left > 0 else "")
        left -= _length(kept[-1])
    return Record(url, titles[0], kept[0], chapter, tuple(
        Part(part.anchor, name, words, part.kind)
        for part, name, words in zip(parts, titles[1:], kept[1:], strict=True)))


def story_record(url: str, title: str, html: str, chapter: str = "", room: int = LEAST) -> Record:
    """The record of a page that the shop wrote in Markdown, by its headings."""
    pieces = _HEADING.split(html)
    parts = [Part(unescape(anchor), name, words) for anchor, name, words in
             zip(pieces[1::3], pieces[2::3], pieces[3::3], strict=True)]
    own = [part for part in parts if _words(part.title) == title]  # the heading of the page itself
    first = " ".join([pieces[0], *(part.text for part in own)])
    return page_record(url, title, first, [part for part in parts if part not in own], chapter, room)


def write_words(site_dir: Path, records: Iterable[Record], also: Iterable[Sequence[str]] = ()) -> None:
    """Write the words of the book where the finder reads them; ``also`` holds names of one and the same thing."""
    pages = [[one.url, one.title, one.text, one.chapter, [_trimmed(part) for part in one.parts]] for one in records]
    told = json.dumps({"also": [list(names) for names in also], "pages": pages}, ensure_ascii=False,
                      separators=(",", ":"))
    told = told.replace("\u2028", " ").replace("\u2029", " ")
    path = site_dir / WORDS_OF_THE_BOOK
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"window.wordsOfTheBook={told};\n", encoding="utf-8")


def _trimmed(part: Part) -> list[str]:
    """Without the empty texts at its end."""
    told = [part.anchor, part.title, part.text, part.kind]
    while not told[-1]:
        told.pop()
    return told


def _named(html: str) -> str:
    """The same as a title, with a capital."""
    words = _words(html)
    return words[:1].upper() + words[1:]


def _words(html: str) -> str:
    """Text without tags, in one line."""
    if "<" not in html and "&" not in html:
        return " ".join(html.split())
    return trusted(html).striptags()


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
    return len(json.dumps(text, ensure_ascii=False).encode()) - 2
