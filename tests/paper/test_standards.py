"""The papers keep the standards that they say they keep, by a judge that is not ours."""

from __future__ import annotations

from pathlib import Path

import pikepdf

from site_builder.analysis.analysis import analysis
from site_builder.paper.cards import make_cards
from site_builder.paper.sheets import Sheets
from tests.paper.conftest import NOTEBOOKS, TODAY, BookOf
from tests.paper.judging import faults_of


def test_book_card_and_sheet_keep_both_standards_and_a_file_that_does_not_is_found_out(
    book_of: BookOf, tmp_path: Path,
) -> None:
    shop = analysis(NOTEBOOKS / "trades/dyehouse", TODAY)
    card = make_cards(shop, ["make-stock"]).printed
    assert card is not None
    papers = {"card.pdf": card.data, "checklist.pdf": Sheets(shop).checklist("the-vat").data,
              "book.pdf": book_of("trades/dyehouse", "a5").read_bytes()}
    for name, data in papers.items():
        (tmp_path / name).write_bytes(data)
    with pikepdf.open(tmp_path / "card.pdf") as pdf:  # the judge can say no
        del pdf.Root.StructTreeRoot
        pdf.save(tmp_path / "spoilt.pdf")
    found = faults_of([*(tmp_path / name for name in papers), tmp_path / "spoilt.pdf"])
    assert {key: rules for key, rules in found.items() if rules and key[1] != "spoilt.pdf"} == {}
    assert found["2a", "spoilt.pdf"] and found["ua1", "spoilt.pdf"]
