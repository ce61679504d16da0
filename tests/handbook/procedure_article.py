"""The notebooks that each hold one demand of the craft, and their pages as a reader reads them."""

from __future__ import annotations

import html
import re
from functools import cache

from expectation import book_of, page

from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.site import Page

PAGES = {
    "limits": "bushing/turn-bushing",
    "ends": "blade/temper-blade",
    "windows": "spar/varnish-spar",
    "loops": "bowl/raise-bowl",
    "variants": "pipe/solder-pipe",
    "within-a-step": "tray/solder-tray",
    "settings": "knob/turn-knob",
    "wear": "spoon/forge-spoon",
    "hands": "anchor/weld-fluke",
    "inspection": "spring/coil-spring",
    "harm": "bracket/pickle-bracket",
    "reasons": "frame/glue-frame",
    "troubles": "cup/cast-cup",
    "lots": "sign/fire-sign",
    "yield": "bell/cast-bell",
}


@cache
def sheet_of(notebook: str) -> Page:
    return page(procedure_pages, book_of(notebook), f"the-work/{PAGES[notebook]}.md")


def words_of(article: str) -> str:
    """What a reader reads, in one line."""
    text = html.unescape(re.sub(r"<[^>]*>", "", re.sub(r"<(?=(?:li|p|div|td|th|dt|dd|h\d|figcaption|span)\b)", " <",
                                                       article)))
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ").replace("\u2212", "-")).strip()


@cache
def read(notebook: str) -> str:
    return words_of(sheet_of(notebook).html)


def part(notebook: str, anchor: str) -> str:
    """What stands at one anchor, up to the next step."""
    article = sheet_of(notebook).html
    start = article.index(f'id="{anchor}"')
    ends = [at for mark in ('<li id="', "<h2") if (at := article.find(mark, start + 1)) > 0]
    return words_of(article[article.rindex("<", 0, start) : min(ends, default=len(article))])
