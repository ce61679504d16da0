"""The whole book as plain text: what is left when nothing opens anything any more but a text editor."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from xml.etree.ElementTree import Element

from site_builder.ebook.bound import Chapter

WIDTH = 78
"""Letters a line, as paper and every screen take."""
_RUNNING = frozenset({
    "a", "abbr", "b", "cite", "code", "em", "i", "mark", "small", "span", "strong", "sub", "sup", "u", "br", "img",
    "kbd", "q", "s", "audio", "ins", "del", "samp", "var",
})
_RULED = {"h1": "=", "h2": "-"}
_UNSEEN = ("svg", "video")


def plain_text(title: str, chapters: Iterable[Chapter]) -> str:
    """The chapters one after the other, headings underlined, lists and tables as lines."""
    told = list(chapters)
    lines = [title, "=" * len(title), "", "What stands here, in this order:", "",
             *("  " + textwrap.shorten(one.title, WIDTH - 2, placeholder=" …") for one in told)]
    for chapter in told:
        lines += ["", "*" * WIDTH, "", *_Flow().blocks(chapter.tree)]
    return "\n".join(_no_gaps(lines)) + "\n"


def _no_gaps(lines: Iterable[str]) -> Iterator[str]:
    """One empty line at most between two others."""
    before = ""
    for line in map(str.rstrip, lines):
        if line or before:
            yield line
        before = line


class _Flow:
    """Turns elements into lines."""

    def blocks(self, element: Element, lead: str = "", margin: str = "") -> Iterator[str]:
        """The content of an element: ``lead`` stands before its first line, ``margin`` before the others."""
        running: list[str] = [element.text or ""]
        first = lead

        def flushed() -> Iterator[str]:
            nonlocal first
            words = " ".join("".join(running).split())
            running.clear()
            if words:
                yield from textwrap.wrap(words, WIDTH, initial_indent=first, subsequent_indent=margin,
                                         break_long_words=False, break_on_hyphens=False)
                first = margin

        for child in element:
            if child.tag in _RUNNING:
                running.append(_words(child))
            else:
                yield from flushed()
                yield from self._block(child, first, margin)
                first = margin
            running.append(child.tail or "")
        yield from flushed()

    def _block(self, element: Element, lead: str, margin: str) -> Iterator[str]:
        tag = element.tag
        if tag in _UNSEEN:
            label = element.get("aria-label", "")
            if label:
                yield from textwrap.wrap(f"[Drawing: {label}]", WIDTH, initial_indent=lead, subsequent_indent=margin)
        elif tag in _RULED:
            lines = textwrap.wrap(" ".join(_words(element).split()), WIDTH)
            yield from ("", *lines, _RULED[tag] * max(map(len, lines), default=0), "")
        elif tag in ("h3", "h4", "h5", "h6"):
            words = " ".join(_words(element).split())
            yield from ("", *textwrap.wrap(words, WIDTH, initial_indent=margin, subsequent_indent=margin), "")
        elif tag in ("ul", "ol"):
            yield from self._list(element, margin)
        elif tag == "table":
            yield from self._table(element, margin)
        elif tag == "dd":
            yield from self.blocks(element, margin + "    ", margin + "    ")
        elif tag in ("p", "figcaption", "caption", "pre", "blockquote"):
            yield from self.blocks(element, lead, margin)
            if tag == "p":
                yield ""
        else:
            yield from self.blocks(element, lead, margin)

    def _list(self, element: Element, margin: str) -> Iterator[str]:
        for number, item in enumerate(element, int(element.get("start", "1"))):
            sign = f"{number}. " if element.tag == "ol" else "- "
            lines = [*self.blocks(item, margin + sign, margin + " " * len(sign))]
            if not any(line.startswith(margin + sign) for line in lines):  # a heading or a frame stands first
                first = next((n for n, line in enumerate(lines) if line.strip()), None)
                if first is not None:
                    lines[first] = f"{margin}{sign}{lines[first].strip()}"
            while lines and not lines[-1].strip():
                lines.pop()
            yield from lines
        yield ""

    def _table(self, element: Element, margin: str) -> Iterator[str]:
        caption = element.find("caption")
        if caption is not None:
            yield from self.blocks(caption, margin, margin)
        heads = [" ".join(_words(one).split()) for one in element.iterfind("thead/tr/th")]
        for row in element.iterfind("tbody/tr"):
            cells = [*row]
            for nth, cell in enumerate(cells):
                words = " ".join(_words(cell).split())
                name = heads[nth] if nth < len(heads) else ""
                if nth == 0:
                    yield from textwrap.wrap(words or "-", WIDTH, initial_indent=margin + "- ",
                                             subsequent_indent=margin + "  ")
                elif words:
                    yield from textwrap.wrap(f"{name}: {words}" if name else words, WIDTH,
                                             initial_indent=margin + "    ", subsequent_indent=margin + "      ")
        yield ""


def _words(element: Element) -> str:
    """The text of an element; a picture by what it shows, parts of a cell kept apart."""
    if element.tag == "img":
        return f" [Picture: {element.get('alt', '')}] "
    if element.tag == "br":
        return " "
    if element.tag in _UNSEEN:
        return ""
    inner = "".join((element.text or "", *(_words(child) + (child.tail or "") for child in element)))
    return inner if element.tag in _RUNNING and element.get("class") not in ("bl-line", "bl-tail") else f" {inner} "
