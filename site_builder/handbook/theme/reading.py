"""What the page skeleton reads off a finished page: its headings and the variants it can be read for."""

import re
from html import unescape

from markupsafe import Markup, escape
from mkdocs.structure.toc import AnchorLink, TableOfContents

from site_builder.handbook.trusted import trusted

_HEADING = re.compile(r'<h2 id="([^"]+)">((?:(?!<h2 ).)*?)</h2>', re.DOTALL)
_TAG = re.compile(r"<[^<>]*>")
_CHOICE = re.compile(r'<input type="radio" name="read-([^"]+)" value="([^"]+)"')
EVERY = "every"  # the choice that hides nothing; no rule is written for it


def plain(text: object) -> Markup:
    """A title as text for any place of a page: tags dropped, entities read once, everything escaped again.

    MkDocs hands titles over as HTML when they come from Markdown and as bare text when they come from a file.
    """
    return escape(trusted(str(text)).striptags())


def outline(html: str) -> TableOfContents:
    """The ``h2`` headings of a page in order, for ``Page.toc``; headings with a class are left out.

    MkDocs finds headings in Markdown only. A page that is handed over as HTML needs this.
    """
    found = _HEADING.findall(html)
    return TableOfContents([AnchorLink(_TAG.sub("", title), unescape(name), 2) for name, title in found])


def reading_rules(html: str | None) -> Markup:
    """The style element that makes "Read this page for" work without a script; empty if nothing is to choose.

    One rule a choice: what is meant for other values of that dimension is not shown. An element meant for
    several dimensions carries one attribute for each, so all of them must agree. Where a browser does not
    know ``:has()`` the rule is ignored and the page is shown whole.
    """
    if not html or 'class="bl-reading"' not in html:
        return Markup("")
    rules = [
        f'.bl-page:has(input[name="read-{dimension}"][value="{value}"]:checked) '
        f'[data-for-{dimension}]:not([data-for-{dimension}~="{value}"])'
        for dimension, value in dict.fromkeys(_CHOICE.findall(html))
        if value != EVERY
    ]
    if not rules:
        return Markup("")
    # The values have passed through token(): letters, digits and hyphens, so they cannot leave the string.
    return Markup("<style>{}{{display:none}}</style>").format(trusted(",".join(rules)))
