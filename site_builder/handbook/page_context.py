"""Words, values and links as they are written on one page: safe, set for people, addressed from there."""

from __future__ import annotations

import posixpath
from functools import cache, cached_property
from pathlib import Path

from markupsafe import Markup

from site_builder.handbook.media import media_html
from site_builder.handbook.prose_html import Media, html
from site_builder.handbook.site import UNWRITTEN, Site
from site_builder.handbook.trusted import trusted
from site_builder.notebook.consent import playable
from site_builder.notebook.finding import At
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import Dated, Written
from site_builder.notebook.model.picture import Picture
from site_builder.pictures import Published
from site_builder.quantity import for_people, spelt
from site_builder.views.anchors import token
from site_builder.views.blocks import Shot
from site_builder.views.dates import date_words
from site_builder.views.prose import Prose, Ref, joined, toned
from site_builder.views.scope import Scope, scope_of
from site_builder.views.typeset import typeset


class PageContext:
    """Writes for the page ``src_uri``. A glossary word is linked where a page first uses it."""

    def __init__(self, site: Site, src_uri: str) -> None:
        self.book = site
        self.src_uri = src_uri
        self._folder = posixpath.dirname(src_uri)
        self._words_linked: set[str] = set()

    # ------------------------------------------------------------------ addresses

    def to(self, src_uri: str, anchor: str = "") -> str:
        """The address of a page (given as ``folder/page.md``), seen from this one."""
        path, _, inner = src_uri.partition("#")
        anchor = anchor or inner
        if path == self.src_uri and anchor:
            return f"#{anchor}"
        folder, _, page = path.rpartition("/")
        way = _way(folder, self._folder)
        name = page.removesuffix(".md") + ".html" if page.endswith(".md") else page
        relative = f"{way}/{name}" if way else name
        return f"{relative}#{anchor}" if anchor else relative

    @cached_property
    def root(self) -> str:
        """The way from this page to the root of the book, as ``../..``."""
        return posixpath.relpath(".", posixpath.dirname(self.src_uri) or ".")

    def href(self, kind: str, id_: str, anchor: str = "") -> str | None:
        """The address of the page that tells of a thing, seen from this page; None if there is none."""
        page = self.book.addresses.get((kind, id_))
        return None if page is None else self.to(page, anchor)

    def question_href(self, at: At) -> str:
        """The address of the question about a line of the notebook; that of all questions if there is none."""
        page = self.book.question_pages.get((at.path, at.line))
        return self.to(UNWRITTEN) if page is None else self.to(page, question_anchor(at))

    def address(self, to: Ref) -> str | None:
        """Where a link leads, seen from this page (`here` is this page); None if no page tells of it."""
        if to.kind == "here":
            return f"#{to.anchor}"
        if to.kind == "moment":
            return self._recording(to.id, to.anchor)
        if to.kind in ("chapter", "story"):
            return self.to(to.id, to.anchor)
        return self.href(to.kind, to.id, to.anchor)

    def _recording(self, telling_id: str, fragment: str) -> str | None:
        """The recording of a telling at a moment; None where it is not published."""
        telling = self.book.notebook.tellings.get(telling_id)
        file = None if telling is None else playable(self.book.notebook, telling)
        one = None if file is None else self.book.pictures.get(file)
        if one is None or not one.files:
            return None
        return f"{posixpath.join(self.root, one.files[0].name)}{f'#{fragment}' if fragment else ''}"

    def first_use(self, word: str) -> bool:
        """Whether a word of the glossary is used here for the first time; the page of words explains it itself."""
        if word in self._words_linked or self.src_uri.startswith("words."):
            return False
        self._words_linked.add(word)
        return True

    # ------------------------------------------------------------------ names and links

    def title(self, kind: str, id_: str) -> str:
        """What a thing is called."""
        return self.book.titles.get((kind, id_), id_)

    def link(self, kind: str, id_: str, words: str | Prose | None = None, anchor: str = "") -> Prose:
        """A thing by name, leading to its page."""
        return self.book.views.link(kind, id_, words, anchor)

    def pair(self, kind: str, id_: str) -> tuple[str, str | None]:
        """(words, address) for parts of the theme that take links."""
        return typeset(self.title(kind, id_)), self.href(kind, id_)

    def any_link(self, id_: str, kinds: tuple[str, ...]) -> Prose:
        """A thing of one of these kinds; the words as written where it is none of them."""
        return self.book.views.any_link(id_, kinds)

    def person(self, who: str) -> Prose:
        """A person by name, or the words as written (a role, `another`)."""
        return self.book.views.person(who)

    # ------------------------------------------------------------------ words

    def scope(self, entry: Entry) -> Scope:
        """On behalf of a thing of the notebook that this page tells of."""
        return scope_of(self.book.views, entry)

    def said(self, words: Prose) -> Markup:
        """Prose as HTML, for the few places where a page puts elements together itself."""
        return html(words, self)

    def words(self, text: str | None, *, glossary: bool = True) -> Prose:
        """Free text of the notebook, with its links and the glossary's."""
        return self.book.views.words(text, glossary=glossary)

    def plain(self, text: str | None) -> str:
        """The same without any mark-up, for titles, captions read aloud and the finder."""
        return self.book.views.plain(text)

    # ------------------------------------------------------------------ values and dates

    def value(self, leaf: Written | None) -> tuple[str, str]:
        """A value for people: as written, and in the other system (empty where there is none)."""
        if leaf is None:
            return "", ""
        shown = for_people(leaf.value, self.book.system)
        return shown.main, shown.other

    def valued(self, leaf: Written | None) -> Prose:
        """A value in one piece, the other system in brackets."""
        main, other = map(spelt, self.value(leaf))
        return joined((main, toned("other units", other)))

    def date(self, leaf: Dated | None) -> str:
        """``2 March 2026``, ``March 2026``, ``1987``, or a span, as precisely as it was written."""
        return date_words(leaf)

    # ------------------------------------------------------------------ pictures

    def published(self, picture: Picture) -> Published | None:
        """What became of a picture's file; None where there is no such file."""
        file = self.book.views.picture_file(picture)
        return None if file is None else self.book.pictures.get(file)

    def media(self, shot: Shot) -> Media:
        """What shows or plays a picture; `lost` if there is no such file or it could not be published."""
        one = self.book.pictures.get(shot.path) if shot.path is not None else None
        if one is None or one.problem is not None:
            kept_back = one is not None and one.problem is not None and one.problem.code == "withheld"
            return Media("withheld" if kept_back else "lost", Markup(""), Path(shot.file).name)
        kind = {"film": "Film", "sound": "Sound"}.get(one.kind, "picture")
        return Media(kind, trusted(media_html(one, shot.alt, self.root)), Path(shot.file).name)


def question_anchor(at: At) -> str:
    """The place of a question on its page."""
    return f"q-{token(at.path)}-{at.line}"


@cache
def _way(folder: str, start: str) -> str:
    """From one folder of the book to another, as ``../shared``; empty within the same one."""
    way = posixpath.relpath(folder or ".", start or ".")
    return "" if way == "." else way
