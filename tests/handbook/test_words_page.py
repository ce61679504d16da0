"""The glossary and where its words are used."""

from pathlib import Path

from expectation import book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.words import word_pages
from site_builder.handbook.site import WORDS


def test_the_page_as_it_was_found_good() -> None:
    expect(page(word_pages, book_of("hook-forge"), WORDS), "words")


def test_a_word_within_a_word_or_in_an_id_is_no_use_of_it(tmp_path: Path) -> None:
    notebook = (
        "=== procedures/shop.yml\nshop: s\ntitle: S\nwords: {rim: The edge., belt: It runs.}\n"
        "=== procedures/a.yml\nprocedure: a\ntitle: Trim it\ntools: belt\nsteps: [Trim the brim.]\n"
        "=== procedures/b.yml\nprocedure: b\ntitle: Turn it\nsteps: [Feel both rims.]\n"
    )
    sheet = page(word_pages, book_written(notebook, tmp_path), WORDS)
    assert Markup(sheet.html).striptags().count("Used in:") == 1
    assert "Turn it" in sheet.html
    assert "Trim it" not in sheet.html


def test_only_a_few_uses_are_named(tmp_path: Path) -> None:
    notebook = "=== procedures/shop.yml\nshop: s\ntitle: S\nwords: {rim: The edge.}\n" + "".join(
        f"=== procedures/p{n}.yml\nprocedure: p{n}\ntitle: Number {n}\nsteps: [Feel the rim.]\n" for n in range(9))
    words = Markup(page(word_pages, book_written(notebook, tmp_path), WORDS).html).striptags()
    assert words.count("Number") == 4
    assert "and elsewhere" in words


def test_every_word_can_be_found_by_itself() -> None:
    sheet = page(word_pages, book_of("hook-forge"), WORDS)
    assert [(part.anchor, part.title) for part in sheet.parts] == [("scale", "scale"), ("upset", "upset")]
