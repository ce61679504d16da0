"""Whole papers as somebody has looked at them: what is read aloud and in what order, and every page as a picture.

They lie in ``expected/``. After a change that is meant: ``BENCHLORE_NEW_PAGES=1 pytest tests/paper``, then read the
difference and look at the pictures before you keep them.
"""

from __future__ import annotations

import difflib
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageFilter, ImageStat

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.paper.book import Paper
from site_builder.paper.cards import make_cards
from site_builder.paper.press import Printed
from site_builder.paper.sheets import Sheets
from tests.paper.conftest import NOTEBOOKS, TODAY, BookOf, opened
from tests.paper.reading import Word, pages_as_picture, read_aloud, words_on

EXPECTED = Path(__file__).parent / "expected"
ANEW = os.environ.get("BENCHLORE_NEW_PAGES") == "1"
_UNLIKE = 40
"""Levels of grey of 255 at any place of the softened pages; a word more or less comes to more, as a test shows."""


@pytest.fixture(scope="module")
def dyehouse() -> Analysis:
    return analysis(NOTEBOOKS / "trades/dyehouse", TODAY)


@pytest.fixture(scope="module")
def cards(dyehouse: Analysis, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The cards of a shop, some with a danger, gauge lines and judgements."""
    return _laid(make_cards(dyehouse, [*dyehouse.notebook.procedures]).printed, tmp_path_factory.mktemp("cards"))


def test_the_book_is_read_aloud_in_the_order_in_which_it_is_meant(book_of: BookOf) -> None:
    _as_expected("kettle-read-aloud.txt", read_aloud(book_of("trades/kettle", "a4")))


def test_cards_are_read_aloud_in_the_order_in_which_they_are_meant(cards: Path) -> None:
    _as_expected("cards-read-aloud.txt", read_aloud(cards))


@pytest.mark.parametrize(("shop", "paper"), [("dyehouse", "a4"), ("kettle", "a5"), ("fiddle", "letter")])
def test_every_page_of_a_book_looks_as_it_did(book_of: BookOf, tmp_path: Path, shop: str, paper: Paper) -> None:
    shown = pages_as_picture(book_of(f"trades/{shop}", paper), tmp_path / "p.png")
    _looks_as_expected(f"{shop}-{paper}.png", shown)


def test_every_card_looks_as_it_did(cards: Path, tmp_path: Path) -> None:
    _looks_as_expected("cards.png", pages_as_picture(cards, tmp_path / "p.png"))


def test_sheets_to_write_on_look_as_they_did(dyehouse: Analysis, tmp_path: Path) -> None:
    sheets = Sheets(dyehouse)
    for name, made in (("checklist", sheets.checklist("the-vat")), ("count", sheets.count("set-vat"))):
        (tmp_path / name).mkdir()
        file = _laid(made, tmp_path / name)
        _looks_as_expected(f"{name}.png", pages_as_picture(file, tmp_path / name / "p.png"))


def test_one_word_that_is_another_is_seen(cards: Path, tmp_path: Path) -> None:
    page = pages_as_picture(cards, tmp_path / "p.png")
    with Image.open(page) as now:
        other = now.copy()
    _, (left, top, right, bottom), _ = next(one for one in words_on(cards) if len(one[2]) == 4)
    dots = 40 / 72
    other.paste(255, tuple(round(side * dots) for side in (left, top, right, bottom)))
    with Image.open(page) as now:
        assert _unlike(now, other) > _UNLIKE


@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
@pytest.mark.parametrize("shop", ["trades/dyehouse", "trades/bindery"])
def test_no_word_runs_out_of_the_page_or_over_another(book_of: BookOf, shop: str, paper: Paper) -> None:
    file = book_of(shop, paper)
    with opened(file) as pdf:
        wide, high = (float(side) for side in pdf.pages[0].mediabox[2:])
    edge, top_edge = 30, 18  # points; the narrowest margin is 11 mm, and heads stand within it
    words = words_on(file)
    out = [(page, word) for page, (left, top, right, bottom), word in words
           if left < edge or right > wide - edge or top < top_edge or bottom > high - top_edge]
    assert out == [] and [*_over_each_other(words)] == []


def _over_each_other(words: list[Word]) -> Iterator[tuple[int, str, str]]:
    """Words of different lines that stand nearer than lines ever do: less than 0.7 of the height of the smaller one."""
    lines = sorted(words, key=lambda word: (word[0], word[1][1]))
    for number, (page, (left, top, right, bottom), word) in enumerate(lines):
        for other_page, (other_left, other_top, other_right, other_bottom), other in lines[number + 1 :]:
            if other_page != page or other_top > bottom:
                break
            apart = abs((other_top + other_bottom) - (top + bottom)) / 2
            low = 0.7 * min(bottom - top, other_bottom - other_top)
            if min(right, other_right) - max(left, other_left) > 1 and 1 < apart < low:
                yield page, word, other


def _as_expected(name: str, told: list[str]) -> None:
    file = EXPECTED / name
    if ANEW:
        file.write_text("\n".join(told) + "\n", encoding="utf-8")
    expected = file.read_text("utf-8").splitlines()
    assert "\n".join(difflib.unified_diff(expected, told, name, "now", lineterm="", n=1)) == ""


def _laid(made: Printed | None, folder: Path) -> Path:
    assert made is not None
    file = folder / "paper.pdf"
    file.write_bytes(made.data)
    return file


def _looks_as_expected(name: str, pages: Path) -> None:
    file = EXPECTED / name
    if ANEW:
        with Image.open(pages) as now:
            now.convert("L").quantize(16).save(file, optimize=True)
    with Image.open(file) as expected, Image.open(pages) as now:
        assert expected.size == now.size, f"{name}: another number of pages: {pages}"
        assert _unlike(expected, now) < _UNLIKE, f"{name} looks otherwise: {pages}"


def _unlike(one: Image.Image, other: Image.Image) -> float:
    """How far two pictures are apart where they are most."""
    soft = [each.convert("L").filter(ImageFilter.GaussianBlur(1.2)) for each in (one, other)]
    return float(ImageStat.Stat(ImageChops.difference(*soft)).extrema[0][1])
