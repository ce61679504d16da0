"""The book of a shop: everything that is to be read, as a PDF to print two-sided and to keep."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Literal

from site_builder.analysis.analysis import Analysis
from site_builder.paper.as_data import AsData
from site_builder.paper.chapters import MEANINGS, Gathering
from site_builder.paper.fonts import Letters, font_files, lacking_told, letters_of
from site_builder.paper.pictures import Pictures
from site_builder.paper.press import Press, Printed, sides_of, workplace
from site_builder.paper.terms import terms
from site_builder.views.dates import dated_day
from site_builder.views.notebook_view import NotebookView, System
from site_builder.views.picture import shots
from site_builder.views.prose import Prose, joined
from site_builder.views.scope import scope_of

Paper = Literal["a4", "a5", "letter"]
_SIZES = {"a4": "a4", "a5": "a5", "letter": "us-letter"}
Tell = Callable[[str, int, int], None]
"""Told of what is being made, how much of it is done, and of how much."""


def quiet(_what: str, _done: int, _of: int) -> None:
    """Tells nobody."""


def make_book(
    analysis: Analysis, *, paper: Paper = "a4", system: System = "both", fonts: Path | None = None,
    tell: Tell = quiet,
) -> Printed:
    """The book of a notebook. The same notebook and day give the same bytes. Raises CannotPrint.

    ``fonts``: a folder with fonts of the shop's own, for letters that the typefaces of the book lack.
    """
    with workplace() as folder:
        files = font_files(fonts)
        press = Press(Path(folder), files, analysis.today)
        letters, pictures = letters_of(files), Pictures(press.pictures, press.shows)
        data = _data(analysis, paper, system, letters, pictures, tell)
        tell("Setting the pages", 0, 1)
        press.lay_out(data)
        made = press.pull("book.typ")
        tell("Setting the pages", 1, 1)
    return Printed(made, sides_of(made), lacks_told(letters, pictures))


def book_pages(
    analysis: Analysis, paper: Paper, system: System = "both", fonts: Path | None = None,
) -> Mapping[str, int]:
    """The page of the book on which each place stands, by its name (`procedure:true-the-sole`). Raises CannotPrint."""
    with workplace() as folder:
        files = font_files(fonts)
        press = Press(Path(folder), files, analysis.today)
        letters, pictures = letters_of(files), Pictures(press.pictures, press.shows)
        press.lay_out(_data(analysis, paper, system, letters, pictures, quiet))
        found: dict[str, int] = press.ask("book.typ", "pages")[-1]
    return found


def lacks_told(letters: Letters, pictures: Pictures) -> tuple[str, ...]:
    """What could not be printed as the notebook has it, in words."""
    lost = tuple(f"{file} is not printed: {why}" for file, why in pictures.problems.items())
    return tuple(filter(None, (lacking_told(letters.lacking), *lost)))


def _data(
    analysis: Analysis, paper: Paper, system: System, letters: Letters, pictures: Pictures, tell: Tell,
) -> dict[str, Any]:
    gathering = Gathering(analysis, system)
    tell("Gathering what the notebook says", 0, 1)
    chapters = list(gathering.chapters())
    places = frozenset(place for one in chapters for section in (one.head, *one.sections) for place in section.places)
    as_data = AsData(letters, pictures.of, places)
    told = []
    for number, chapter in enumerate(chapters):
        tell("Gathering what the notebook says", number, len(chapters))
        sections = []
        for section in (chapter.head, *chapter.sections):
            as_data.turn_to(section.home, section.called)
            label = section.home if section.home in places else ""
            sections.append({"called": as_data.of(section.called), "label": label,
                             **{name: as_data.of(view) for name, view in section.views.items()}})
        told.append({"kind": chapter.kind, "title": as_data.of(chapter.title), "head": sections[0],
                     "sections": sections[1:]})
    as_data.turn_to("", "the title page")
    index = [[letter, [{"words": as_data.of(t.words), "kind": t.kind, "home": t.home if t.home in places else "",
                        "at": [one for one in t.at if one in places]} for t in group]]
             for letter, group in terms(gathering, places)]
    return {**shop_data(gathering.view, as_data, letters), "paper": _SIZES[paper], "chapters": told, "index": index,
            "meanings": {**MEANINGS, "notice": "Spoils the work, and not you."}, "counts": _counts(gathering)}


def shop_data(view: NotebookView, as_data: AsData, letters: Letters) -> dict[str, Any]:
    """What every paper says of the shop and of itself."""
    shop, today = view.notebook.shop, view.analysis.today
    return {
        "shop": as_data.of(view.plain(shop.title) if shop is not None and shop.title else "The shop"),
        "because": as_data.of(joined(map(view.words, shop.because)) if shop is not None else Prose()),
        "accident": as_data.of([view.words(line) for line in shop.accident] if shop is not None else []),
        "front": as_data.of(_front(view)), "printed": dated_day(today), "seal": notebook_seal(view),
        "year": today.year, "month": today.month, "day": today.day, "families": list(letters.families[2:]),
    }


def _front(view: NotebookView) -> Any:
    """The picture of what the shop makes, for the title page."""
    for one in view.notebook.products.values():
        if one.pictures:
            return shots(scope_of(view, view.notebook.shop or one), one.pictures[:1])[0]
    return None


def notebook_seal(view: NotebookView) -> str:
    """The first 16 digits of the SHA-256 over the digests of all files that were read."""
    digests = sorted(view.notebook.digests.items())
    whole = hashlib.sha256("\n".join(f"{digest}  {path}" for path, digest in digests).encode()).hexdigest()
    return " ".join(whole[at : at + 4] for at in range(0, 16, 4))


def _counts(gathering: Gathering) -> dict[str, int]:
    nb = gathering.nb
    return {"procedures": len(nb.procedures), "parts": len(nb.parts), "things": len(nb.things),
            "skills": len(nb.skills)}


