"""What holds for every page of a procedure: sound links, nothing lost, nothing taken for mark-up."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, get_args

import pytest
from expectation import TODAY, book_of, book_written, page
from procedure_article import PAGES, words_of

from site_builder.analysis.analysis import analysis
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.reckoning import reckoning_pages
from site_builder.handbook.site import Site
from site_builder.notebook.finding import Level
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Brief
from site_builder.notebook.model.limit import Saying, Table
from site_builder.notebook.model.parsed_values import ParsedValue, Words
from site_builder.notebook.tree import Text
from site_builder.quantity import Value
from site_builder.views.free_text import plain


@pytest.mark.parametrize("notebook", PAGES)
def test_the_notebook_itself_is_sound(notebook: str) -> None:
    assert [f.line() for f in book_of(notebook).findings if f.level is Level.ERROR] == []


@pytest.mark.parametrize("notebook", PAGES)
def test_every_link_on_the_page_leads_somewhere_and_no_anchor_stands_twice(notebook: str) -> None:
    for sheet in procedure_pages(book_of(notebook)):
        ids = Counter(re.findall(r' id="([^"]+)"', sheet.html))
        assert [name for name, count in ids.items() if count > 1] == []
        wanted = set(re.findall(r'<a [^>]*href="#([^"]+)"', sheet.html))
        assert wanted - set(ids) == set()


WORDS = get_args(Words)[1]


def _holds_words(annotation: Any, metadata: list[Any]) -> bool:
    inner = getattr(annotation, "__metadata__", ())
    return WORDS in (*metadata, *inner) or any(_holds_words(one, []) for one in get_args(annotation))


def _texts(value: object) -> Iterator[Text]:
    if isinstance(value, Text):
        yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from _texts(one)
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from _texts(one)


def _entries(value: object) -> Iterator[Entry]:
    if isinstance(value, Entry):
        yield value
        for inner in value.__dict__.values():
            yield from _entries(inner)
    elif isinstance(value, tuple):
        for one in value:
            yield from _entries(one)
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from _entries(one)
    elif isinstance(value, Table):
        for _, cell in value.cells():
            yield from _entries(cell)


# an address, a word that is put into a sentence of ours, and what gathers hazards on the page Staying whole
_ELSEWHERE = {"file", "per", "family"}
_SOURCES = {"memory": "from memory", "measured": "measured", "maker": "from the maker’s instructions"}


def written_words(entry: Entry) -> Iterator[tuple[str, str]]:
    """(key, text) of all free text in an entry and under it."""
    for one in _entries(entry):
        if isinstance(one, Brief):  # the same in few words
            continue
        teller = f"told by {one.who}" if isinstance(one, Saying) else ""  # he stands there as the one who says it
        for key, field in type(one).model_fields.items():
            if key not in _ELSEWHERE and _holds_words(field.annotation, field.metadata):
                for text in _texts(getattr(one, key)):
                    if text == teller:
                        continue
                    yield key, _SOURCES.get(text, str(text)) if key == "source" else str(text)


def _folded(text: str) -> str:
    return re.sub(r"[^\w]+", " ", plain(text).replace("\u00a0", " ")).strip().lower()


def _books() -> Iterator[tuple[str, str]]:
    for notebook in PAGES:
        for id_ in book_of(notebook).notebook.procedures:
            yield notebook, id_


@pytest.mark.parametrize(("notebook", "procedure"), list(_books()))
def test_nothing_that_was_written_is_lost(notebook: str, procedure: str) -> None:
    """Every sentence of every free text, every name of a limit every figure stands there or on the page beside it."""
    book = book_of(notebook)
    missing = list(_missing(book, procedure, _pages(book)))
    assert missing == []


def test_nothing_of_the_demo_shop_is_lost() -> None:
    root = Path(__file__).parents[2]
    if not (root / "procedures" / "shop.yml").is_file():
        pytest.skip("the demo shop is not here")
    book = _demo(root)
    pages = _pages(book)
    missing = [(id_, *lost) for id_ in book.notebook.procedures for lost in _missing(book, id_, pages)]
    assert missing == []


def _demo(root: Path) -> Site:
    return Site(analysis(root, TODAY), ())


def _pages(site: Site) -> dict[str, str]:
    """The page of each procedure and that of its sums, by address."""
    return {one.src_uri: one.html for one in (*procedure_pages(site), *reckoning_pages(site))}


def _missing(site: Site, procedure: str, pages: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    own = site.notebook.procedures[procedure]
    own_page = pages[site.addresses["procedure", procedure]]
    said = _folded(words_of(own_page + pages.get(site.addresses["reckoning", procedure], "")))
    people = {f"told by {id_}": f"told by {person.name}" for id_, person in site.notebook.people.items()}
    shop = site.notebook.shop
    sources = {} if shop is None else {str(id_): str(source.title) for id_, source in shop.sources.items()}
    for key, text in written_words(own):
        text = people.get(text, sources.get(text, text))
        for sentence in re.split(r"(?<=[.!?])\s+", text):
            if _folded(sentence) not in said:
                yield key, sentence
    for entry in _entries(own):
        for key in ("limits", "settings", "conditions", "windows", "roles", "grades"):
            for name in getattr(entry, key, ()):
                if _folded(str(name)) not in said:
                    yield key, str(name)
        for key, value in entry.__dict__.items():
            if isinstance(value, ParsedValue) and isinstance(value.value, Value):
                figures = re.findall(r"\d+(?:\.\d+)?", re.sub(r"\[[^\]]*\]", "", str(value.text)))
                yield from ((key, str(value.text)) for figure in figures if not _has(figure, said))


def _has(figure: str, said: str) -> bool:
    """Whether a figure stands there; "1" may be said as "once" or "one"."""
    return figure.replace(".", " ") in said or (figure == "1" and ("once" in said or "one" in said))


# --- edges ---------------------------------------------------------------------------------------------


def test_ten_lines_make_a_page_without_empty_headings(tmp_path: Path) -> None:
    text = """=== procedures/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Lay the foot on the belt, sole down.
  - Try it on the plate; it must not rock.
"""
    sheet = page(procedure_pages, book_written(text, tmp_path), "the-work/grind-foot.md")
    assert re.findall(r"<h[23][^>]*>(.*?)</h", sheet.html) == ["The steps"]
    assert [p.title for p in sheet.parts] == ["1. Lay the foot on the belt, sole down.",
                                              "2. Try it on the plate; it must not rock."]


def test_what_a_writer_types_is_never_taken_for_markup(tmp_path: Path) -> None:
    text = """=== procedures/p.yml
procedure: p
title: P <b>
steps:
  - id: a
    do: Press <script>alert(1)</script> here.
    limits: {"<i>gap</i>": {is: max 1 mm, check: each piece, above: {do: "Turn <u>back</u>.", then: a}}}
    troubles: {sign: "A <img src=x> crack.", do: Stop., then: none}
"""
    article = page(procedure_pages, book_written(text, tmp_path), "the-work/p.md").html
    assert not re.search(r"<(script|i>gap|u>|img)", article)
    assert "&lt;script&gt;" in article


def test_an_unsound_page_says_so_under_its_title(tmp_path: Path) -> None:
    text = "=== procedures/p.yml\nprocedure: p\ntitle: P\nsteps: [{do: Cut., use: nowhere}]\n"
    article = page(procedure_pages, book_written(text, tmp_path), "the-work/p.md").html
    assert article.index("<h1>") < article.index("Not sound: do not work from this page.") < article.index("The steps")


def test_revisions_stand_newest_first_and_lead_to_their_change(tmp_path: Path) -> None:
    text = """=== procedures/p.yml
procedure: p
title: Plane the top
steps: [Plane it.]
revisions:
  - {date: 1987, what: By hand., source: memory}
  - {date: 2024-02, what: By machine., change: planer}
=== procedures/changes/planer.yml
change: planer
title: The planer
"""
    article = page(reckoning_pages, book_written(text, tmp_path), "the-work/p-reckoning.md").html
    said = words_of(article)
    assert said.index("February 2024 By machine. The change and its evidence.") < said.index("1987 By hand.")
    assert 'href="../changes/planer.html"' in article
