"""The last gate of a page that was written as Markdown: only what shows words and pictures of the book gets through.

Whatever made the HTML (a writer, an extension of Markdown, another plugin): elements that act, handlers, styles and
every address that leads out of the book are taken away. What is an address within the book is decided here alone.
"""

from __future__ import annotations

import re

import nh3

_NAMES = """
    a abbr article aside audio b blockquote br caption cite code col colgroup dd del details dfn div dl dt em
    figcaption figure h1 h2 h3 h4 h5 h6 hr i img input ins kbd li mark nav ol p pre q s samp section small span
    strong sub summary sup table tbody td tfoot th thead tr u ul var video
"""
_TAGS = frozenset(_NAMES.split())
_ATTRIBUTES = {
    "*": {"class", "id", "title", "lang", "dir", "role", "aria-label", "aria-hidden"},
    "a": {"href"},
    "img": {"src", "srcset", "sizes", "alt", "width", "height", "loading", "decoding"},
    "audio": {"src", "controls", "preload"},
    "video": {"src", "controls", "preload", "width", "height"},
    "input": {"checked", "disabled"},
    "ol": {"start", "type", "reversed"},
    "li": {"value"},
    "th": {"style", "align", "colspan", "rowspan", "scope"},
    "td": {"style", "align", "colspan", "rowspan"},
    "details": {"open"},
}
_ALIGNED = re.compile(r"text-align: ?(?:left|right|center);?")
_UNSEEN = re.compile(r"[\x00-\x20\x7f-\xa0\u2028\u2029]")
# Names by which the theme's own script and style find their parts; one of them would load a drawing program.
_OF_THE_THEME = re.compile(r"mermaid|md-|__")


def gated(html: str) -> str:
    """The page without anything that acts or that leads out of the book."""
    return nh3.clean(
        html, tags=set(_TAGS), attributes={tag: set(names) for tag, names in _ATTRIBUTES.items()},
        clean_content_tags={"script", "style", "iframe", "object", "svg", "math", "template", "noscript"},
        attribute_filter=_kept,
        set_tag_attribute_values={"input": {"type": "checkbox"}},
        url_schemes=set(), link_rel=None, strip_comments=True,
    )


def within_the_book(address: str) -> bool:
    """Whether this is the way to a page or a file of the book, or to a place on the same page.

    Browsers pass over blanks and control characters and take a backslash for a slash; so does this.
    """
    bare = _UNSEEN.sub("", address).replace("\\", "/")
    return not bare.startswith("/") and ":" not in re.split("[?#]", bare, maxsplit=1)[0]


def _kept(_element: str, attribute: str, value: str) -> str | None:
    if attribute in ("href", "src"):
        return value if within_the_book(value) else None
    if attribute == "srcset":
        return value if all(within_the_book(choice.strip()) for choice in value.split(",")) else None
    if attribute == "style":
        return value if _ALIGNED.fullmatch(value.strip()) else None
    if attribute == "class":
        return " ".join(name for name in value.split() if not _OF_THE_THEME.match(name)) or None
    if attribute == "id":
        return None if _OF_THE_THEME.match(value) else value
    return value
