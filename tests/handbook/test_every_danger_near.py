"""Every hazard that a piece of work meets is told in full where one stands, or one touch away."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest
from expectation import TODAY, book_of
from procedure_article import PAGES, words_of

from site_builder.analysis.analysis import analysis
from site_builder.handbook.pages.material import material_pages
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.pages.tool import tool_pages
from site_builder.handbook.site import Site
from site_builder.notebook.gather import hazards_of
from site_builder.notebook.model.harm import Hazard
from site_builder.views.free_text import plain

ROOT = Path(__file__).parents[2]
TRADES = tuple(f"trades/{one.name}" for one in sorted((ROOT / "tests/notebooks/trades").iterdir()) if one.is_dir())


def folded(text: str) -> str:
    return re.sub(r"[^\w]+", " ", plain(text).replace("\u00a0", " ")).strip().lower()


def told(site: Site) -> Mapping[str, tuple[str, str]]:
    """Address to the article and its words, of the pages of work, of things, and of staying whole."""
    makers = (procedure_pages, tool_pages, material_pages, whole_pages)
    return {page.src_uri.removesuffix(".md") + ".html": (page.html, folded(words_of(page.html)))
            for make in makers for page in make(site)}


@cache
def demo() -> Site:
    return Site(analysis(ROOT, TODAY), ())


def sites() -> list[str]:
    return ["demo", *PAGES, *TRADES]


@pytest.mark.parametrize("name", sites())
def test_every_hazard_of_a_piece_of_work_stands_in_full_one_touch_away(name: str) -> None:
    site = demo() if name == "demo" else book_of(name)
    pages = told(site)
    far = []
    for id_, own in site.notebook.procedures.items():
        here = site.addresses["procedure", id_].removesuffix(".md") + ".html"
        links = re.findall(r'href="([^"#]+)', pages[here][0])
        near = [here, *(posixpath.normpath(posixpath.join(posixpath.dirname(here), link)) for link in links)]
        for one in hazards_of(site.notebook, own):
            assert isinstance(one.item, Hazard)
            texts = [folded(str(text)) for text in (one.item.hazard, one.item.harm, one.item.avoid) if text]
            if not any(all(text in pages[page][1] for text in texts) for page in near if page in pages):
                far.append((id_, str(one.item.hazard)))
    assert far == []


@pytest.mark.parametrize("name", sites())
def test_on_a_page_of_work_no_danger_is_shut_away(name: str) -> None:
    site = demo() if name == "demo" else book_of(name)
    for page in procedure_pages(site):
        inside = re.sub(r"<details\b(?![^>]*bl-reason).*?</details>", _only_frames, page.html, flags=re.DOTALL)
        assert "\0" not in inside, page.src_uri


def _only_frames(found: re.Match[str]) -> str:
    """What is folded, marked where a frame of a hazard or a prohibition stands in it."""
    return "\0" if re.search(r'class="bl-(?:signal|never) ?', found[0]) else ""
