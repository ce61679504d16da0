"""One thing is told alike on every page that tells it: who holds what, who taught whom, what is bought."""

from __future__ import annotations

import html
import re
from collections import Counter
from functools import cache
from pathlib import Path
from posixpath import basename

import pytest
from expectation import NOTEBOOKS, TODAY, book_of
from procedure_article import words_of

from site_builder.analysis.analysis import analysis
from site_builder.handbook.pages.order import order_pages
from site_builder.handbook.pages.start import start_pages
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import Site

ROOT = Path(__file__).parents[2]
LEVELS = ("watches", "beside", "within call", "alone", "teaches")
SHOPS = ["demo", *sorted(path.parent.parent.relative_to(NOTEBOOKS).as_posix()
                         for path in NOTEBOOKS.rglob("skills/people.yml"))]
Held = dict[str, Counter[str]]


@cache
def site_of(name: str) -> Site:
    return Site(analysis(ROOT, TODAY), ()) if name == "demo" else book_of(name)


@cache
def hands(name: str) -> dict[str, str]:
    """Address to article of the pages on people and skills."""
    return {page.src_uri.removesuffix(".md"): page.html for page in hand_pages(site_of(name))}


def skill_in(address: str) -> str:
    return basename(address).partition("#")[0].removesuffix(".html")


def in_the_table(article: str) -> Held:
    """Skill to how many stand at each level, as the table of all hands has it."""
    found: Held = {}
    for row in re.findall(r'<tr><th scope="row"><a href="(skills/[^"]+)">.*?</tr>', article, re.DOTALL):
        cells = article[article.index(f'<th scope="row"><a href="{row}">'):].partition("</tr>")[0]
        told = [word.rstrip("*").removesuffix(", but rests").rstrip("*")
                for word in re.findall(r"<span>([^<]+)</span></(?:a|span)>", cells)]
        found[skill_in(row)] = Counter(word for word in told if word in LEVELS)
    return found


def on_their_own_pages(pages: dict[str, str]) -> Held:
    """The same, put together from the page of each person."""
    found: Held = {}
    for address, article in pages.items():
        if "/people/" in address:
            for level, row in re.findall(r'<li><span class="bl-level">.*?<span>([^<]+)</span></span><span>(.*?)</li>',
                                         article.partition('class="bl-does"')[2].partition("</ul>")[0], re.DOTALL):
                for skill in re.findall(r'href="(\.\./skills/[^"]+)"', row):
                    found.setdefault(skill_in(skill), Counter())[level] += 1
    return found


@pytest.mark.parametrize("shop", SHOPS)
def test_so_many_hold_a_skill_alone_on_every_page(shop: str) -> None:
    pages = hands(shop)
    table = {skill: held for skill, held in in_the_table(pages.get("the-hands/index", "")).items() if held}
    assert table == on_their_own_pages(pages)


def by_lineage(article: str) -> dict[tuple[str, str], frozenset[str]]:
    """(teacher, learner) to skills."""
    found = {}
    words = article.partition('id="in-words"')[2].partition("</h2>")[2]
    for teacher, taught in re.findall(r"<li><b>(.*?)</b> taught<ul>(.*?)</ul></li>", words, re.DOTALL):
        for learner in re.findall(r"<li>(.*?)</li>", taught, re.DOTALL):
            who, _, skills = words_of(learner).partition(": ")
            found[words_of(teacher), who] = skills_in(skills)
    return found


def by_learners(pages: dict[str, str]) -> dict[tuple[str, str], frozenset[str]]:
    found = {}
    for address, article in pages.items():
        if "/people/" in address and 'id="taught-by"' in article:
            learner = words_of(re.findall(r"<h1>(.*?)</h1>", article)[0])
            told = article.partition('id="taught-by"')[2].partition("</ul>")[0]
            for line in re.findall(r"<li>(.*?)</li>", told, re.DOTALL):
                who, _, skills = words_of(line).partition(": ")
                found[who, learner] = skills_in(skills)
    return found


def skills_in(told: str) -> frozenset[str]:
    return frozenset(one.strip(" .").lower() for one in re.split(r", | and ", html.unescape(told)))


@pytest.mark.parametrize("shop", SHOPS)
def test_who_taught_whom_is_told_alike_by_the_lineage_and_by_whoever_learned(shop: str) -> None:
    pages = hands(shop)
    lineage = by_lineage(pages.get("the-hands/who-taught-whom", ""))
    learned = by_learners(pages)
    assert {pair: skills for pair, skills in learned.items() if lineage and lineage.get(pair) != skills} == {}


def test_what_is_bought_in_is_bought_for_the_order() -> None:
    site = site_of("demo")
    start = next(iter(start_pages(site))).html
    bought = {words_of(name).lower() for line in re.findall(r"Bought in: (.*?)</p>", start)
              for name in re.findall(r"<a [^>]*>(.*?)</a>", line)}
    orders = " ".join(words_of(page.html).lower() for page in order_pages(site))
    assert bought
    assert {name for name in bought if name not in orders} == set()


def test_this_looks_at_shops_that_tell_something() -> None:
    assert sum(bool(on_their_own_pages(hands(shop))) for shop in SHOPS) > 1
    lines = [by_lineage(hands(shop).get("the-hands/who-taught-whom", "")) for shop in SHOPS]
    assert any(line and by_learners(hands(shop)) for line, shop in zip(lines, SHOPS, strict=True))
