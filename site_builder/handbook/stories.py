"""The shop's own Markdown pages: links to things of the notebook, and nothing that acts or reaches outside.

They may hold no more than any other text of the notebook: HTML is shown as the text it is, an address outside
the book stands after its words, a picture is shown as it was published. ``gate.gated`` looks over what comes out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Protocol
from xml.etree.ElementTree import Element

from markdown import Extension, Markdown
from markdown.inlinepatterns import InlineProcessor
from markdown.postprocessors import Postprocessor
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AMP_SUBSTITUTE, AtomicString

from site_builder.handbook.gate import within_the_book
from site_builder.handbook.media import media_html
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.site import Site
from site_builder.notebook.references import LINK
from site_builder.notebook.story_links import files_in, is_media, path_of, without_comments
from site_builder.pictures import Published

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)")
_BAR = "\ue07c"
"""Stands for the ``|`` of ``[[id|words]]`` until tables have been told apart by theirs."""
_SHOWN = ("title", "description")
"""What the head of a story may say of its page; a template of its own, say, it may not ask for."""


class Files(Protocol):
    """What a book consists of, as MkDocs keeps it."""

    def get_file_from_path(self, path: str) -> object | None:
        """The file at this address, or None."""


class NoFiles:
    """A book without any."""

    def get_file_from_path(self, _path: str) -> None:
        """Nothing."""


def story_pictures(site: Site) -> Iterator[Path]:
    """The pictures and recordings that stories show or lead to."""
    for story in site.notebook.stories:
        for link in files_in(story):
            if link.image or is_media(link.path):
                yield site.notebook.root / link.path


def story_head(meta: Mapping[str, object]) -> dict[str, object]:
    """Of the head of a story what its page may tell."""
    return {key: str(value) for key, value in meta.items() if key in _SHOWN}


class StoryMarkdown(Extension):
    """What Markdown means in a story. ``page`` says which story comes next."""

    def __init__(self) -> None:
        super().__init__()
        self.context: PageContext | None = None
        self.files: Files = NoFiles()

    def page(self, site: Site, src_uri: str, files: Files) -> None:
        """The story at ``src_uri`` is rendered next; links may lead to these files."""
        self.context, self.files = PageContext(site, src_uri), files

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802
        if self.context is None:
            return
        md.preprocessors.deregister("html_block", strict=False)
        md.inlinePatterns.deregister("html", strict=False)
        md.preprocessors.register(_Cleared(md), "bl_cleared", 19)  # fenced code has been put aside
        md.inlinePatterns.register(_Comment(r"<!--.*?-->", md), "bl_comment", 185)  # after code, before escapes
        md.inlinePatterns.register(_Reference(_LINK, md, self.context), "bl_reference", 175)  # before Markdown's links
        md.treeprocessors.register(_Print(md), "bl_print", 15)  # once all words are in the tree
        # after lists of attributes, which may set any address, and before MkDocs looks where links lead
        md.treeprocessors.register(_Addresses(md, self.context, self.files), "bl_addresses", 4)
        md.postprocessors.register(_Bars(md), "bl_bars", 0)


_LINK = LINK.pattern.replace(r"\|", f"[|{_BAR}]").replace("]|]", f"]|{_BAR}]")


class _Cleared(Preprocessor):
    """Comments go; the bar of a reference is no border of a table's cell."""

    def run(self, lines: list[str]) -> list[str]:
        text = without_comments("\n".join(lines)).replace(_BAR, "\N{REPLACEMENT CHARACTER}")
        return LINK.sub(lambda found: found[0].replace("|", _BAR), text).split("\n")


class _Bars(Postprocessor):
    def run(self, text: str) -> str:
        return text.replace(_BAR, "|")


class _Comment(InlineProcessor):
    """A comment within a paragraph."""

    def handleMatch(self, m: re.Match[str], _data: str) -> tuple[str, int, int]:  # type: ignore[override]  # noqa: N802
        return "", m.start(0), m.end(0)


class _Reference(InlineProcessor):
    """``[[id]]`` and ``[[id|words]]``, set as in every other text."""

    def __init__(self, pattern: str, md: Markdown, context: PageContext) -> None:
        super().__init__(pattern, md)
        self.context = context

    def handleMatch(self, m: re.Match[str], _data: str) -> tuple[str, int, int]:  # type: ignore[override]  # noqa: N802
        shown = self.context.said(self.context.words(m[0].replace(_BAR, "|"), glossary=False))
        return self.md.htmlStash.store(str(shown)), m.start(0), m.end(0)


class _Print(Treeprocessor):
    """A straight apostrophe becomes that of print; code stays as it is."""

    def run(self, root: Element) -> None:
        waiting = [root]
        while waiting:
            element = waiting.pop()
            for child in element:
                child.tail = _printed(child.tail)
                if child.tag not in ("code", "pre"):
                    waiting.append(child)
            element.text = _printed(element.text)


def _printed(words: str | None) -> str | None:
    return words if words is None or isinstance(words, AtomicString) else _APOSTROPHE.sub("’", words)


class _Addresses(Treeprocessor):
    """Pictures as they were published; links that stay in the book; all other addresses as words."""

    def __init__(self, md: Markdown, context: PageContext, files: Files) -> None:
        super().__init__(md)
        self.context, self.files = context, files

    def run(self, root: Element) -> None:
        pictures = self._alone(root)
        for element in [*root.iter()]:
            if element.tag == "img":
                self._image(element, element in pictures)
            elif element.tag == "a":
                self._link(element)

    @staticmethod
    def _alone(root: Element) -> list[Element]:
        """Pictures that are a paragraph of their own."""
        return [
            p[0] for p in root.iter("p")
            if len(p) == 1 and p[0].tag == "img" and not ((p.text or "") + (p[0].tail or "")).strip()
        ]

    def _image(self, element: Element, alone: bool) -> None:
        target, words = element.get("src", ""), element.get("alt", "")
        published = self._published(target)
        if published is not None:
            shown = media_html(published, words, self.context.root)
            shown = self.md.htmlStash.store(f'<figure class="bl-photo">{shown}</figure>' if alone else shown)
        elif within_the_book(target):
            shown = words  # it is not there, or cannot be shown; a finding says so
        else:
            shown = f"{words} ({target})" if words else target
        _become_words(element)
        element.text = AtomicString(shown)

    def _link(self, element: Element) -> None:
        target = element.get("href", "")
        if AMP_SUBSTITUTE in target:  # an address for letters between angle brackets
            _become_words(element)
        elif not within_the_book(target):
            words = "".join(element.itertext())
            _become_words(element)
            if words != target:
                last = element[-1] if len(element) else None
                told = f" ({target})"
                if last is None:
                    element.text = AtomicString((element.text or "") + told)
                else:
                    last.tail = AtomicString((last.tail or "") + told)
        elif (published := self._published(target)) is not None:
            element.set("href", f"{self.context.root}/{published.files[-1].name}")
        elif not self._is_in_the_book(target):
            _become_words(element)

    def _published(self, target: str) -> Published | None:
        if not within_the_book(target):
            return None
        site = self.context.book
        one = site.pictures.get(site.notebook.root / path_of(f"procedures/{self.context.src_uri}", target))
        return one if one is not None and one.files else None

    def _is_in_the_book(self, target: str) -> bool:
        if target.startswith(("#", "?")) or not target:
            return True
        path = path_of(f"procedures/{self.context.src_uri}", target)
        return self.files.get_file_from_path(path.removeprefix("procedures/")) is not None


def _become_words(element: Element) -> None:
    """A link or a picture that leads nowhere any more."""
    element.tag = "span"
    element.attrib.clear()
def is_readable(file: Path) -> bool:
    """Whether a page of the shop's own is text at all; if not, a finding says so, and the book does without it."""
    try:
        if not file.is_file():
            return False
        file.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        return False
    return True

