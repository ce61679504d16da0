"""A page of the handbook as a chapter: well-formed XHTML, every link leads into the book, every picture is in it."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from html import escape
from urllib.parse import unquote
from xml.etree.ElementTree import Element, ParseError, fromstring

VOID = ("area", "br", "col", "hr", "img", "input", "source", "wbr")
_VOID = re.compile(rf"<({'|'.join(VOID)})\b((?:\"[^\"<]*+\"|'[^'<]*+'|[^'\"<>])*+)>")
_BARE = re.compile(r"\s(controls|checked|disabled|open|reversed)(?=[\s/>])")
_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_TAG = re.compile(r"<[a-z][^<>]*>")
_ONLY_ON_SCREENS = ("srcset", "sizes", "loading", "decoding")
_SVG = "http://www.w3.org/2000/svg"
_LEFT_OUT = frozenset({"bl-noprint", "bl-reading", "bl-no"})  # the number of a step is that of the list


class NotWellFormed(ValueError):
    """A page is no XML: a fault of ours, told with the page and the place."""


@dataclass
class Chapter:
    """A page of the book under way. ``path`` is its file in the book, ``tree`` what stands in it."""

    path: str
    title: str
    tree: Element
    ids: frozenset[str] = field(default_factory=frozenset)

    @property
    def has_drawings(self) -> bool:
        """Whether something is drawn on it."""
        return self.tree.find(".//svg") is not None

    def body(self) -> str:
        """The article as XHTML, without the element around it."""
        return "".join(_written(self.tree)).removeprefix("<div>").removesuffix("</div>")


def chapter(path: str, title: str, html: str) -> Chapter:
    """The article of a page as a tree. Raises NotWellFormed."""
    html = _NO_XML.sub("\N{REPLACEMENT CHARACTER}", html)
    text = _VOID.sub(lambda found: f"<{found[1]}{found[2].rstrip(' /')}/>", html)
    text = _TAG.sub(lambda found: _BARE.sub(r' \1="\1"', found[0]), text)
    try:
        tree = fromstring(f"<div>{text}</div>")
    except ParseError as problem:
        line, column = problem.position
        near = text.split("\n")[line - 1][max(0, column - 60):column + 20] if line else ""
        raise NotWellFormed(f"{path}: {problem} near {near!r}") from None
    for one in tree.iter():  # some drawings name their language, others are merely within a page
        one.tag = one.tag.rpartition("}")[2]
        if one.get("class") == "bl-also":  # the handbook's stylesheet does it there
            _bracket(one)
    _thin(tree)
    return Chapter(path, title, tree, frozenset(one.get("id", "") for one in tree.iter()) - {""})


def tie(chapters: Collection[Chapter], picture: Callable[[str], str | None]) -> None:
    """Addresses of pages become those of chapters, of pictures those in the book; what leads nowhere becomes words.

    ``picture`` answers with the file in the book for the address of one in the handbook, or None.
    """
    ids = {one.path: one.ids for one in chapters}
    for one in chapters:
        for element in one.tree.iter():
            _tie_element(one, element, ids, picture)


def _tie_element(
    here: Chapter, element: Element, ids: Mapping[str, Collection[str]], picture: Callable[[str], str | None],
) -> None:
    if element.tag == "svg":
        element.set("xmlns", _SVG)
    for name in _ONLY_ON_SCREENS:
        element.attrib.pop(name, None)
    if element.tag == "a" and "href" in element.attrib:
        goal = _goal(here.path, element.attrib.pop("href"), ids)
        if goal:
            element.set("href", goal)
        else:
            element.tag = "g" if element.get("class") == "" or _is_drawn(element) else "span"
    elif element.tag in ("img", "audio", "video", "image"):
        key = "href" if element.tag == "image" else "src"
        found = picture(posixpath.normpath(posixpath.join(posixpath.dirname(here.path), element.get(key, ""))))
        if found is None:
            _become_words(element)
        else:
            element.set(key, _way(here.path, found))


def _is_drawn(element: Element) -> bool:
    return any(child.tag in ("text", "rect", "path", "circle", "g", "tspan") for child in element)


def _become_words(element: Element) -> None:
    words = element.get("alt") or element.get("aria-label") or ""
    element.tag = "span"
    element.attrib.clear()
    element.text = words


def _goal(here: str, href: str, ids: Mapping[str, Collection[str]]) -> str:
    """Where a link leads, seen from ``here``; empty if that is not in the book."""
    path, _, anchor = href.partition("#")
    anchor = unquote(anchor)
    if path:
        path = posixpath.normpath(posixpath.join(posixpath.dirname(here), unquote(path)))
        path = re.sub(r"\.(?:html|md)$", ".xhtml", path)
    else:
        path = here
    if path not in ids:
        return ""
    anchor = anchor if anchor in ids[path] else ""
    if path == here:
        return f"#{anchor}" if anchor else _way(here, here)
    return _way(here, path) + (f"#{anchor}" if anchor else "")


def _way(here: str, path: str) -> str:
    return posixpath.relpath(path, posixpath.dirname(here) or ".")


def _thin(tree: Element) -> None:
    """What only a screen with a printer, or a reader's choice, has a use for is left out."""
    for parent in [*tree.iter()]:
        for child in [*parent]:
            if _LEFT_OUT & set(child.get("class", "").split()):
                _drop(parent, child)
        if "data-otherwise" in parent.attrib:  # a voice, which an e-book does not carry
            words = parent.attrib["data-otherwise"]
            parent.attrib.clear()
            parent.tag, parent.text = "span", words
        for name in [name for name in parent.attrib if name.startswith("data-")]:
            del parent.attrib[name]


def _bracket(element: Element) -> None:
    """Put what an element says in brackets."""
    element.text = f"({element.text or ''}"
    if len(element):
        element[-1].tail = f"{element[-1].tail or ''})"
    else:
        element.text += ")"


def _drop(parent: Element, child: Element) -> None:
    """Take an element out; the words behind it stay."""
    nth = list(parent).index(child)
    if child.tail:
        if nth:
            parent[nth - 1].tail = (parent[nth - 1].tail or "") + child.tail
        else:
            parent.text = (parent.text or "") + child.tail
    parent.remove(child)


def _written(element: Element) -> Iterator[str]:
    attributes = "".join(f' {name}="{escape(value)}"' for name, value in element.attrib.items())
    if element.tag in VOID or (not len(element) and not element.text and element.tag in _DRAWN):
        yield f"<{element.tag}{attributes}/>"
        return
    yield f"<{element.tag}{attributes}>{escape(element.text or '', quote=False)}"
    for child in element:
        yield from _written(child)
        yield escape(child.tail or "", quote=False)
    yield f"</{element.tag}>"


_DRAWN = ("path", "rect", "circle", "line", "image", "use", "ellipse", "polygon", "polyline", "stop")
