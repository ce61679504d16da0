"""Whole papers as somebody has looked at them: what is read aloud and in what order, and pages as pictures.

They lie in ``expected/``. After a change that is meant: ``BENCHLORE_NEW_PAGES=1 pytest tests/paper``, then read the
difference and look at the pictures before you keep them.
"""

from __future__ import annotations

import difflib
import os
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageFilter, ImageStat

from site_builder.analysis.analysis import analysis
from site_builder.paper.book import Paper
from site_builder.paper.cards import make_cards
from tests.paper.conftest import NOTEBOOKS, TODAY, BookOf, opened
from tests.paper.reading import picture_of, read_aloud, words_on

EXPECTED = Path(__file__).parent / "expected"
ANEW = os.environ.get("BENCHLORE_NEW_PAGES") == "1"
_UNLIKE = 1.0
"""Levels of grey of 255, on the average of a softened page; another drawing of letters comes to a tenth of it."""


@pytest.fixture(scope="module")
def card(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The card of a procedure with a danger, gauge lines and judgements."""
    made = make_cards(analysis(NOTEBOOKS / "trades/dyehouse", TODAY), ["set-vat"]).printed
    assert made is not None
    file = tmp_path_factory.mktemp("card") / "card.pdf"
    file.write_bytes(made.data)
    return file


def test_the_book_is_read_aloud_in_the_order_in_which_it_is_meant(book_of: BookOf) -> None:
    _as_expected("kettle-read-aloud.txt", read_aloud(book_of("trades/kettle", "a4")))


def test_a_card_is_read_aloud_in_the_order_in_which_it_is_meant(card: Path) -> None:
    _as_expected("card-read-aloud.txt", read_aloud(card))


@pytest.mark.parametrize(("paper", "page"), [("a4", 6), ("a5", 7), ("letter", 5)])
def test_pages_of_the_book_look_as_they_did(book_of: BookOf, tmp_path: Path, paper: Paper, page: int) -> None:
    shown = picture_of(book_of("trades/kettle", paper), page, tmp_path / "p.png")
    _looks_as_expected(f"kettle-{paper}-{page}.png", shown)


def test_a_card_looks_as_it_did(card: Path, tmp_path: Path) -> None:
    _looks_as_expected("card.png", picture_of(card, 1, tmp_path / "p.png"))


@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
@pytest.mark.parametrize("shop", ["trades/dyehouse", "trades/fiddle"])
def test_no_word_runs_out_of_the_page(book_of: BookOf, shop: str, paper: Paper) -> None:
    file = book_of(shop, paper)
    with opened(file) as pdf:
        wide, high = (float(side) for side in pdf.pages[0].mediabox[2:])
    edge, top_edge = 30, 18  # points; the narrowest margin is 11 mm, and heads stand within it
    out = [(page, word) for page, (left, top, right, bottom), word in words_on(file)
           if left < edge or right > wide - edge or top < top_edge or bottom > high - top_edge]
    assert out == []


def _as_expected(name: str, told: list[str]) -> None:
    file = EXPECTED / name
    if ANEW:
        file.write_text("\n".join(told) + "\n", encoding="utf-8")
    expected = file.read_text("utf-8").splitlines()
    assert "\n".join(difflib.unified_diff(expected, told, name, "now", lineterm="", n=1)) == ""


def _looks_as_expected(name: str, page: Path) -> None:
    file = EXPECTED / name
    if ANEW:
        with Image.open(page) as now:
            now.convert("L").quantize(16).save(file, optimize=True)
    with Image.open(file) as expected, Image.open(page) as now:
        assert expected.size == now.size
        soft = [one.convert("L").filter(ImageFilter.GaussianBlur(1.5)) for one in (expected, now)]
        assert ImageStat.Stat(ImageChops.difference(*soft)).mean[0] < _UNLIKE, f"{name} looks otherwise: {page}"
