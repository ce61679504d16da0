"""Notebooks of trades that nobody had in mind: every fact stands where a reader would look, meaning what was written.

Beside each notebook lies ``NAME.facts.yml``: what its writer meant, and questions with their answers. Each names the
page, the anchor ``at`` which it stands if not anywhere on the page, the words it ``says`` there and those that must
``not`` stand there. ``waits`` tells why a fact does not stand properly yet; it then must fail.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest
import yaml
from _pytest.mark import ParameterSet
from expectation import NOTEBOOKS, book_of
from pydantic import BaseModel, ConfigDict, Field
from visible_text import WHOLE, visible

from site_builder.handbook.pages import MAKERS
from site_builder.handbook.site import Page
from site_builder.notebook.finding import Level

TRADES = NOTEBOOKS / "trades"


class Told(BaseModel):
    """One fact, or one question with its answer, and where it stands."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    fact: str = ""
    ask: str = ""
    answer: str = ""
    page: str
    at: str = WHOLE
    says: tuple[str, ...] = Field(min_length=1)
    never: tuple[str, ...] = Field(default=(), alias="not")
    waits: str = ""


class Facts(BaseModel):
    """What one notebook must show."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    facts: tuple[Told, ...] = Field(min_length=25)
    questions: tuple[Told, ...] = Field(min_length=12)


def facts_of(file: Path) -> Facts:
    return Facts.model_validate(yaml.safe_load(file.read_text("utf-8")))


NAMES = sorted(file.name.removesuffix(".facts.yml") for file in TRADES.glob("*.facts.yml"))


def everything_told() -> Iterator[ParameterSet]:
    for name in NAMES:
        facts = facts_of(TRADES / f"{name}.facts.yml")
        for number, told in enumerate((*facts.facts, *facts.questions), start=1):
            marks = [pytest.mark.xfail(reason=told.waits, strict=True)] if told.waits else []
            yield pytest.param(name, told, id=f"{name}-{number}", marks=marks)


_making: dict[str, Iterator[Page]] = {}
_made: dict[str, dict[str, Page]] = {}


def page_of(name: str, address: str) -> Page:
    """One page of a trade's book; no more pages are made than lie before it."""
    made = _made.setdefault(name, {})
    site = book_of(f"trades/{name}")
    making = _making.setdefault(name, (page for make in MAKERS for page in make(site)))
    while address not in made:
        page = next(making)
        made[page.src_uri.removesuffix(".md")] = page
    return made[address]


@cache
def seen(name: str, address: str) -> Mapping[str, str]:
    return visible(page_of(name, address).html)


def around(words: str, text: str) -> str:
    return f"“{words}” in: {text}"


@pytest.mark.parametrize(("name", "told"), list(everything_told()))
def test_a_fact_stands_where_a_reader_looks(name: str, told: Told) -> None:
    text = seen(name, told.page)[told.at]
    for words in told.says:
        assert words in text, around(words, text)
    for words in told.never:
        assert words not in text, around(words, text)


@pytest.mark.parametrize("name", NAMES)
def test_a_trade_is_written_without_an_error(name: str) -> None:
    assert [str(one) for one in book_of(f"trades/{name}").findings if one.level is Level.ERROR] == []


@pytest.mark.parametrize("name", NAMES)
def test_a_trade_has_six_procedures_or_more_and_names_its_handbook(name: str) -> None:
    book = book_of(f"trades/{name}").notebook
    assert len(book.procedures) >= 6
    assert (TRADES / name / "procedures" / "shop.yml").read_text("utf-8").startswith("# Facts from ")
    assert book.shop is not None
    assert book.shop.sources


def test_what_is_hidden_is_not_seen() -> None:
    text = visible(
        '<h2 id="a">One</h2><p>t<b>w</b>o<span hidden>three</span></p><ol><li id="s">four</li></ol><h2 id="b">five</h2>'
    )
    assert text == {WHOLE: "One two four five", "a": "One two four", "s": "four", "b": "five"}
