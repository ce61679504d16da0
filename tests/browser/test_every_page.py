"""Every page of the demo and of the other trades, each opened once: what is asked of any page, and of a page of work.

How soon a page of work comes to the work and how long it is are measured as somebody at the bench holds it, on
notebooks that nobody wrote to please the program. axe-core looks at so many pages that every shape of element is seen
by it once; with BENCHLORE_EVERY_PAGE=1 at every page.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

import nu
import pytest
import sitecheck
from conftest import NOTEBOOKS
from playwright.sync_api import BrowserContext, Page

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1366, "height": 768}
FIRST, FIRST_ON_AVERAGE, FIRST_AT_THE_DESK = 2.2, 2.0, 1.8
"""Within how many screens the first step begins."""
LONG, LONGEST = 10, 14
"""Screens of a page of work: three of four are no longer than the one, and none is longer than the other."""
SCREENS = {"staying-whole.html": 10, "the-season/index.html": 10, "the-hands/people/": 6, "the-hands/skills/": 6}
SMALLEST = 11
"""Of lettering in a drawing, in px on a phone."""
SHEETS = 5
SHEETS_OF = {"cast-foot": 6}

_BEGINS = "document.querySelector('.bl-steps > li').getBoundingClientRect().top + scrollY"
_END = "document.documentElement.scrollHeight"
_OVER = "document.scrollingElement.scrollWidth - document.documentElement.clientWidth"
_SHUT_AWAY = """() => [...document.querySelectorAll('main .bl-peril, main .bl-never__text')]
  .filter(one => !one.checkVisibility({contentVisibilityAuto: true})).map(one => one.textContent.trim())"""
_OPEN_ALL = "() => { for (const one of document.querySelectorAll('main details')) one.open = true; }"
_DRAWN = """() => [...document.querySelectorAll('main svg text')].map(one => {
  const box = one.getBoundingClientRect(), lines = one.getBBox();
  return [one.textContent, lines.height ? parseFloat(getComputedStyle(one).fontSize) * box.height / lines.height : 99];
}).filter(one => one[1] && one[1] < 11)"""
_PICTURES = """() => [...document.querySelectorAll('main img[src$=".svg"]')].filter(one => one.width).map(one =>
  [one.src, one.getBoundingClientRect().width / one.getAttribute('width')])"""
_ON_ITS_PLACE = """() => [...document.querySelectorAll('.bl-photo__frame:has(.bl-fig__n)')].flatMap(frame => {
  const boxes = name => [...frame.querySelectorAll(name)].map(one => one.getBoundingClientRect());
  const ends = boxes('.bl-fig__end'), numbers = boxes('.bl-fig__n'), all = frame.getBoundingClientRect();
  return numbers.filter(n => !n.width || n.left < all.left - 1 || n.right > all.right + 1 || ends.some(e => {
    const x = (e.left + e.right - n.left - n.right) / 2, y = (e.top + e.bottom - n.top - n.bottom) / 2;
    return Math.hypot(x, y) < n.width / 2; })).map(() => frame.querySelector('img').src);
})"""

_MAY_BE_TORN = """() => [...document.querySelectorAll('main figure')].filter(one => {
  for (let at = one; at; at = at.parentElement)
    if (getComputedStyle(at).breakInside.startsWith('avoid')) return false;
  return true; }).map(one => one.textContent.trim())"""


def ours(site: Path) -> list[Path]:
    """The pages of a book; of those for writers, which say the same in every book, only those of the demo."""
    return [page for page in sitecheck.html_pages(site) if site.name == "demo" or "for-writers" not in page.parts]


def shapes(page: Path) -> frozenset[str]:
    """Every kind of element on a page: its tag with its classes."""
    return frozenset(f"{tag} {' '.join(sorted(re.findall(r'[a-z][^ ]*', kinds or '')))}" for tag, kinds in re.findall(
        r"""<([a-z][a-z0-9]*)\b(?:[^<>]*?\sclass="([^"]*)")?""", page.read_text("utf-8")))


@cache
def looked_at_by_axe(sites: tuple[Path, ...]) -> frozenset[Path]:
    """Pages that together have every shape of element, the richest first."""
    left = {page: shapes(page) for site in sites for page in ours(site)}
    if os.environ.get("BENCHLORE_EVERY_PAGE") == "1":
        return frozenset(left)
    chosen, seen = set(), frozenset[str]()
    while new := max(left, key=lambda page: len(left[page] - seen)):
        if left[new] <= seen:
            break
        chosen.add(new)
        seen |= left.pop(new)
    return frozenset(chosen)


@cache
def smallest_letters(picture: Path) -> float:
    """Of a drawing that holds words, the size of the smallest as it was drawn."""
    drawn = picture.read_text("utf-8")
    found = re.findall(r"""font-size\s*[:=]\s*["']?([\d.]+)""", drawn) if "<text" in drawn else []
    return min(map(float, found), default=99)


def of_any_page(page: Page, axe: bool) -> Iterator[str]:
    """What is wrong on an open page, with all that opens at a touch open."""
    page.evaluate(_OPEN_ALL)
    if axe:
        page.set_viewport_size(DESK)  # type: ignore[arg-type]
        yield from (f"at the desk: {words}" for words in sitecheck.axe(page))
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    yield from (f"letters too small: {words}" for words in page.evaluate(_DRAWN))
    for source, scale in page.evaluate(_PICTURES):
        size = scale * smallest_letters(Path(unquote(urlsplit(source).path)))
        if size < SMALLEST:
            yield f"letters of {size:.1f} px in {source.rpartition('/')[2]}"
    yield from (f"a number covers its place on {source}" for source in page.evaluate(_ON_ITS_PLACE))
    if axe:
        yield from (f"360 px: {words}" for words in sitecheck.axe(page))
    yield from sitecheck.no_sideways_scroll(page, (320,))


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_every_page_is_short_and_fits_and_can_be_used_by_anybody(
    name: str, books: Mapping[str, Path], context: BrowserContext, axe_core: Path
) -> None:
    assert axe_core.is_file()
    site, by_axe = books[name], looked_at_by_axe(tuple(books.values()))
    wrong, begins, ends = [], {}, {}
    with sitecheck.opened(context, site / "index.html") as (page, log):
        for path in ours(site):
            address = path.relative_to(site).as_posix()
            page.set_viewport_size(PHONE)  # type: ignore[arg-type]
            page.goto(path.as_uri())
            ends[address] = page.evaluate(_END) / PHONE["height"]
            found = []
            if page.evaluate("!!document.querySelector('#steps')"):
                begins[address] = page.evaluate(_BEGINS) / PHONE["height"]
                found += [f"shut away: {words}" for words in page.evaluate(_SHUT_AWAY)]
                page.set_viewport_size(DESK)  # type: ignore[arg-type]
                begun = page.evaluate(_BEGINS) / DESK["height"]
                found += [f"first step at {begun:.2f} screens of a desk"] if begun > FIRST_AT_THE_DESK else []
            found += of_any_page(page, path in by_axe)
            wrong += [f"{address}: {words}" for words in found]
        wrong += [f"asks for {request}" for request in log.leaving()] + log.console
    work = {address: ends[address] for address in begins}
    wrong += [f"{address}: {end:.1f} screens" for address, end in ends.items() for start, most in SCREENS.items()
              if address.startswith(start) and end > most]
    wrong += [f"{address}: first step at {at:.2f} screens" for address, at in begins.items() if at > FIRST]
    wrong += [f"{address}: {end:.1f} screens" for address, end in work.items() if end > LONGEST]
    assert wrong == []
    assert begins
    assert sum(begins.values()) / len(begins) <= FIRST_ON_AVERAGE
    assert sum(end > LONG for end in work.values()) <= len(work) / 4


def test_the_html_of_every_page_is_valid(books: Mapping[str, Path], java: str) -> None:
    assert nu.nu_html([page for site in books.values() for page in ours(site)], java) == []


def test_a_page_of_work_is_five_sheets_of_paper_and_no_figure_is_torn(
    books: Mapping[str, Path], context: BrowserContext
) -> None:
    page = context.new_page()
    long, torn, printed = {}, {}, 0
    for work in (page for site in books.values() for page in sitecheck.html_pages(site / "the-work")):
        if 'id="steps"' not in work.read_text("utf-8"):
            continue
        page.goto(work.as_uri())
        page.emulate_media(media="print")
        free = page.evaluate(_MAY_BE_TORN)
        torn |= {work.stem: free} if free else {}
        if page.evaluate(_END) > 3000:  # a shorter one cannot be that long
            count = page.pdf(format="A4", prefer_css_page_size=True).count(b"/Type /Page\n")
            printed += count
            long |= {work.stem: count} if count > SHEETS_OF.get(work.stem, SHEETS) else {}
    assert printed > 20
    assert (long, torn) == ({}, {})
