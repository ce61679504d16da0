"""Prose as HTML: each kind of piece has one form, every text is escaped, every link is found from the page."""

from __future__ import annotations

import re
from contextvars import ContextVar
from html import escape
from typing import Any, NamedTuple, Protocol

from markupsafe import Markup

from site_builder.handbook.trusted import trusted
from site_builder.notebook.finding import At
from site_builder.views.anchors import token
from site_builder.views.blocks import Shot
from site_builder.views.prose import Case, Disputed, GlossaryWord, Linked, Only, Piece, Prose, Ref, Tone, Toned, Untold

_TAGS: dict[Tone, tuple[str, str]] = {
    "emphasis": ("<em>", "</em>"), "strong": ("<strong>", "</strong>"), "code": ("<code>", "</code>"),
    "lead": ("<b>", "</b>"), "because": ("<i>", "</i>"), "aside": ('<span class="bl-aside">', "</span>"),
    "other units": ('<span class="bl-also">', "</span>"), "at step": ('<span class="bl-atstep">', "</span>"),
    "at": ('<span class="bl-at">', "</span>"), "besides": ('<span class="bl-also-why">', "</span>"),
    "line": ('<span class="bl-line">', "</span>"), "used": ('<span class="bl-used">', "</span>"),
    "rule": ('<span class="bl-code">', "</span>"), "found": ("<mark>", "</mark>"),
}


class Media(NamedTuple):
    """What became of a picture: `picture`, `Film`, `Sound`, `lost`, `withheld`; its element, the name of its file."""

    kind: str
    element: Markup
    name: str


class Addresses(Protocol):
    """What a page knows of where things are told."""

    def address(self, to: Ref) -> str | None:
        """Where a link leads, seen from the page; None if no page tells of it."""

    def question_href(self, at: At) -> str:
        """Where the question of a line is asked."""

    def media(self, shot: Shot) -> Media:
        """What shows or plays a picture."""

    def first_use(self, word: str) -> bool:
        """Whether the page uses a word of the glossary for the first time."""


_page: ContextVar[Addresses] = ContextVar("page")


def html(said: Prose, page: Addresses) -> Markup:
    """Prose for the inside of an element, addressed from ``page``."""
    return trusted(_html(said, page))


def on_page(value: Any) -> Any:
    """What a template prints, prose as HTML of the page that is being made."""
    return html(value, _page.get()) if type(value) is Prose else value


_LINK = re.compile(r"<a [^<>]*>|</a>")
_LINKS = re.compile(r"<a [^<>]*>[^<>]*</a>")


def unlinked(words: Any) -> Any:
    """The same without its links: for what is itself touched."""
    return trusted(_LINK.sub("", str(on_page(words)))) if type(words) is Prose else words


def links(words: Any) -> list[Markup]:
    """The links of a text, each once."""
    found = _LINKS.findall(str(on_page(words))) if type(words) is Prose else []
    return [trusted(one) for one in dict.fromkeys(found)]


def turn_to(page: Addresses) -> None:
    """From now on templates print for this page."""
    _page.set(page)


def media(shot: Shot) -> Media:
    """What shows or plays a picture on the page that is being made."""
    return _page.get().media(shot)


def only_for(only: Only) -> str:
    """For whom an element holds, as attributes; the reader's choice hides what does not agree."""
    return "".join(f' data-for-{token(d)}="{" ".join(map(token, names))}"' for d, names in only.values)


def _html(said: Prose, page: Addresses) -> str:
    return "".join(escape(p, quote=False) if isinstance(p, str) else _piece(p, page) for p in said)


def _piece(piece: Piece, page: Addresses) -> str:
    if isinstance(piece, Linked):
        href, words = page.address(piece.to), _html(piece.words, page)
        if href is None and piece.otherwise:
            return _html(piece.otherwise, page)
        heard = f' class="bl-hear" data-otherwise="{escape(piece.otherwise.plain)}"' if piece.otherwise else ""
        return words if href is None else f'<a{heard} href="{escape(href)}">{words}</a>'
    if isinstance(piece, Toned):
        opening, closing = _TAGS[piece.tone]
        return f"{opening}{_html(piece.words, page)}{closing}"
    if isinstance(piece, GlossaryWord):
        href = page.address(Ref("word", piece.word)) if page.first_use(piece.word) else None
        shown = escape(piece.shown, quote=False)
        return shown if href is None else f'<a href="{escape(href)}">{shown}</a>'
    if isinstance(piece, Untold):
        return untold(piece.words, page.question_href(piece.at))
    if isinstance(piece, Case):
        label = f'<i class="bl-for">{_html(piece.only.words, page)}:</i> ' if piece.only.words else ""
        words, marks = _html(piece.words, page), only_for(piece.only)
        return f"<span{marks}>{label}{words}</span>" if marks else f"{label}{words}"
    if isinstance(piece, Disputed):
        sides = " or ".join(f"<span>{_html(value, page)} <i>says {_html(who, page)}</i></span>"
                            for value, who in piece.sides)
        return f'<span class="bl-disputed">{sides} {untold("not settled", page.question_href(piece.at))}</span>'
    return escape(piece, quote=False)


def untold(words: str, href: str) -> str:
    """What is not told yet, leading to its question."""
    return f'<a class="bl-untold" href="{escape(href)}">{escape(words, quote=False)}</a>'
