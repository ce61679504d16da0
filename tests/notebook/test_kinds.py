"""A kind of thing is added in one place, the table of kinds, and everything that goes by kind knows it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from site_builder.amend.grammar import entry_at
from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.handbook.pages.keys import key_pages
from site_builder.handbook.pages.plain import plain_pages
from site_builder.handbook.pages.tool import tool_pages
from site_builder.handbook.remembered import PageStore
from site_builder.handbook.site import Page, Site
from site_builder.notebook import kinds
from site_builder.notebook.kinds import Kind, Shelf
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import NOTHING, Id, Named, Ref, Several, Words
from site_builder.notebook.schema import schema_for, schema_names

TODAY = date(2026, 3, 2)
SHOP = """\
=== procedures/shop.yml
shop: forge
title: The forge
=== skills/people.yml
people:
  ansa: Ansa
=== tools/machines/hammer.yml
machine: hammer
title: Spring hammer
supplier: From [[ridge-iron]].
=== procedures/suppliers/ridge-iron.yml
supplier: ridge-iron
title: Ridge iron works
because: They still roll wrought bar.
contact: ansa
properties:
  shortest order: min 40 kg
"""


class Supplier(Entry):
    """Who brings what."""

    RINGS = (("supplier", "title"), ("contact", "properties"))
    supplier: Id
    """The id; the same as the file's name."""
    title: Words
    """What they are called."""
    contact: Ref | None = None
    """Who of us speaks with them."""
    properties: Named[Several[Limit]] = NOTHING
    """What they ask for."""


SUPPLIER = Kind("supplier", Supplier, Shelf("supplier", "a supplier", "suppliers/{page}"), "a supplier", "Suppliers",
                "procedures/suppliers", references={"contact": ("person",)})


@pytest.fixture(autouse=True)
def _suppliers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kinds, "TABLE", (*kinds.TABLE, SUPPLIER))


def shop(folder: Path, old: str = "", new: str = "") -> Analysis:
    assert old in SHOP
    write_example(SHOP.replace(old, new) if old else SHOP, folder)
    return analysis(folder, TODAY)


def codes(known: Analysis) -> set[tuple[str, str]]:
    return {(f.code, f.at.path) for f in examine(known)}


def plain_page(known: Analysis) -> Page:
    return next(iter(plain_pages(Site(known, ()))))


def test_it_is_loaded_and_nothing_is_wrong_with_it(tmp_path: Path) -> None:
    known = shop(tmp_path)
    assert known.notebook.shelves["supplier"].keys() == {"ridge-iron"}
    assert known.notebook.entry("ridge-iron") is not None
    assert [f for f in known.reading if f.at.path.endswith("ridge-iron.yml")] == []


def test_it_is_referred_to_and_linked_with_its_title(tmp_path: Path) -> None:
    known = shop(tmp_path)
    assert [link.place.owner_id for link in known.references.used_in("supplier", "ridge-iron")] == ["hammer"]
    assert [link.place.owner_id for link in known.references.used_in("person", "ansa")] == ["ridge-iron"]
    hammer = next(iter(tool_pages(Site(known, ()))))
    assert 'href="../suppliers/ridge-iron.html">Ridge iron works</a>' in hammer.html


def test_it_has_a_page_with_all_that_is_written(tmp_path: Path) -> None:
    page = plain_page(shop(tmp_path))
    assert (page.src_uri, page.title) == ("suppliers/ridge-iron.md", "Ridge iron works")
    for told in ("They still roll wrought bar", "Ansa", "shortest order", "40", "Spring hammer"):
        assert told in page.html


@pytest.mark.parametrize("old, new, code", [
    ("contact: ansa", "contact: anssa", "reference-none"),
    ("min 40 kg", "min 40 kgg", "unit-unknown"),
    ("wrought bar", "wrought [[bar]]", "link-none"),
    ("supplier: ridge-iron", "supplier: ridge", "id-not-file"),
    ("contact: ansa", "kontact: ansa", "key-unknown"),
    ("supplier: ridge-iron", "suplier: ridge-iron", "kind-unknown"),
])
def test_what_is_wrong_with_it_is_told_at_its_line(tmp_path: Path, old: str, new: str, code: str) -> None:
    assert (code, "procedures/suppliers/ridge-iron.yml") in codes(shop(tmp_path, old, new))


def test_a_slip_in_a_link_to_it_is_told_with_its_id(tmp_path: Path) -> None:
    found = next(f for f in examine(shop(tmp_path, "[[ridge-iron]]", "[[rigde-iron]]")) if f.code == "link-none")
    assert "ridge-iron" in (found.fix or "")


def test_it_stands_in_schema_guide_and_grammar(tmp_path: Path) -> None:
    assert "supplier" in schema_names()
    judge = Draft202012Validator(schema_for("supplier"))
    assert judge.is_valid({"supplier": "ridge-iron", "title": "Ridge", "contact": "ansa"})
    assert not judge.is_valid({"supplier": "ridge-iron", "title": "Ridge", "phone": "5"})
    guide = "".join(page.html for page in key_pages(Site(shop(tmp_path), ())))
    assert "Who of us speaks with them" in guide and 'id="key-supplier"' in guide
    assert entry_at({"supplier": "ridge-iron"}, ()) is Supplier


def test_its_page_and_those_that_name_it_are_made_anew_when_it_changes(tmp_path: Path) -> None:
    store = PageStore()

    def made(known: Analysis) -> list[str]:
        site = Site(known, ())
        build = store.begin(site)
        list(plain_pages(replace(site, remembering=build.remember)))
        return store.made

    assert made(shop(tmp_path)) == ["supplier-ridge-iron"]
    assert made(shop(tmp_path)) == []
    assert made(shop(tmp_path, "40 kg", "60 kg")) == ["supplier-ridge-iron"]
    assert made(shop(tmp_path, "Spring hammer", "Trip hammer")) == ["supplier-ridge-iron"]
