"""The book: what every copy of it is, whatever the shop and the paper."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.paper.book import Paper, make_book
from tests.paper.conftest import NOTEBOOKS, TODAY, BookOf, opened
from tests.paper.reading import words_on

SHOP = "trades/kettle"
SIZES: dict[Paper, tuple[float, float]] = {"a4": (595.3, 841.9), "a5": (419.5, 595.3), "letter": (612, 792)}


@pytest.mark.parametrize("paper", SIZES)
def test_every_page_has_the_size_that_was_asked_for(book_of: BookOf, paper: Paper) -> None:
    with opened(book_of(SHOP, paper)) as pdf:
        boxes = {tuple(round(float(side), 1) for side in page.mediabox[2:]) for page in pdf.pages}
        assert boxes == {tuple(round(side, 1) for side in SIZES[paper])}


def test_it_says_what_it_is_to_whoever_reads_or_keeps_it(book_of: BookOf) -> None:
    with opened(book_of(SHOP, "a4")) as pdf, pdf.open_metadata() as told:
        assert (told["pdfaid:part"], told["pdfaid:conformance"], told["pdfuaid:part"]) == ("2", "A", "1")
        assert told["dc:title"] == "Copper kettles"
        assert str(pdf.Root.Lang) == "en-GB"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert pdf.Root.MarkInfo.Marked
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == [
                "How to read it", "Body", "Kettle", "Hand tools", "Materials", "Staying whole", "People and skills",
                "Index"]


def test_all_fonts_are_inside_and_are_those_that_may_go_with_it(book_of: BookOf) -> None:
    names = set()
    with opened(book_of(SHOP, "a4")) as pdf:
        for font in (one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"):
            for inner in font.get("/DescendantFonts", [font]):
                names.add(str(inner.BaseFont).partition("+")[2])
                described = inner.FontDescriptor
                assert "/FontFile3" in described or "/FontFile2" in described
    assert names and all(name.startswith(("SourceSerifPro-", "SourceSansPro-")) for name in names)


def test_the_same_notebook_on_the_same_day_gives_the_same_bytes(book_of: BookOf) -> None:
    again = make_book(analysis(NOTEBOOKS / SHOP, TODAY), paper="a5")
    assert again.data == book_of(SHOP, "a5").read_bytes()
    with opened(book_of(SHOP, "a5")) as pdf:
        assert len(pdf.pages) == again.pages


def test_a_frame_that_goes_on_over_the_page_says_its_word_again(tmp_path: Path) -> None:
    """Its colour alone would tell it there, and many a printer has none."""
    perils = "".join(f"  - hazard: Peril {n}\n    word: warning\n"
                     f"    harm: {'It hurts badly, in a way of its own. ' * 6}\n"
                     f"    avoid: {'Stand back, hold on and look twice. ' * 6}\n" for n in range(14))
    write_example("=== procedures/shop.yml\nshop: forge\ntitle: The forge\n=== procedures/beat.yml\n"
                  f"procedure: beat\ntitle: Beat it\nhazards:\n{perils}steps:\n  - do: Beat it.\n", tmp_path)
    (tmp_path / "book.pdf").write_bytes(make_book(analysis(tmp_path, TODAY), paper="a5").data)
    words = words_on(tmp_path / "book.pdf")
    pages = {page for page, _, word in words if word == "Peril"}
    assert len(pages) > 3 and pages <= {page for page, _, word in words if word == "WARNING"}
