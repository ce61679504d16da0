"""What a reader sees of an article, as a whole or at one anchor, in one line."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from html.parser import HTMLParser

_VOID = frozenset({"area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"})
_UNSEEN = frozenset({"script", "style", "template", "svg", "title"})
_RUNNING = frozenset({"a", "abbr", "b", "cite", "em", "i", "strong", "sub", "sup", "u"})
"""Elements that stand within a word or sentence; all others part words."""

WHOLE = ""
"""The anchor that means the whole article."""


def visible(article: str) -> Mapping[str, str]:
    """Anchor to the text that stands in the element of that id; under a heading, up to the next one of its rank."""
    reader = _Reader()
    reader.feed(article)
    reader.close()
    return {anchor: _line("".join(words)) for anchor, words in reader.text.items()}


def _line(text: str) -> str:
    return re.sub(r" (?=[,;.:])", "", re.sub(r"\s+", " ", text)).strip()


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.text: dict[str, list[str]] = defaultdict(list)
        self._open: list[tuple[str, str, bool]] = []
        """(tag, anchor, unseen) of the elements that are open."""
        self._headings: dict[str, str] = {}
        """Rank of a heading to the anchor of the last one of it."""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        anchor = given.get("id") or ""
        if re.fullmatch("h[1-6]", tag):
            self._headings = {rank: at for rank, at in self._headings.items() if rank < tag} | {tag: anchor}
        if tag not in _RUNNING:
            self._add(" ")
        if tag not in _VOID:
            self._open.append((tag, anchor, tag in _UNSEEN or "hidden" in given))

    def handle_endtag(self, tag: str) -> None:
        if any(tag == name for name, _, _ in self._open):
            while self._open.pop()[0] != tag:
                pass
        if tag not in _RUNNING:
            self._add(" ")

    def handle_data(self, data: str) -> None:
        if not any(unseen for _, _, unseen in self._open):
            self._add(data.replace("\u00a0", " ").replace("\u2212", "-"))

    def _add(self, words: str) -> None:
        for anchor in {WHOLE, *(at for _, at, _ in self._open), *self._headings.values()}:
            self.text[anchor].append(words)
