"""Cards for the bench: which procedure, with what on it, and the code in its foot by which it is known again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from site_builder.analysis.analysis import Analysis
from site_builder.paper.as_data import AsData
from site_builder.paper.book import Tell, book_pages, lacks_told, quiet, shop_data
from site_builder.paper.fitting import Fit, TooLong, fitted
from site_builder.paper.fonts import font_files, letters_of
from site_builder.paper.pictures import Pictures
from site_builder.paper.press import Press, Printed, sides_of, workplace
from site_builder.skills.code_letters import code_of
from site_builder.views.blocks import Shot
from site_builder.views.card import CardView, card_view
from site_builder.views.dates import date_words
from site_builder.views.notebook_view import NotebookView, System
from site_builder.views.procedure import procedure_view
from site_builder.views.scope import ProcedureScope

CardPaper = Literal["a4", "letter"]
_SIZES = {"a4": "a4", "letter": "us-letter"}
_AT_ONCE = ("Skill", "Age", "Time for one", "Time for a load", "Time")
"""Short lines, beside the title; longer ones stand below it."""


@dataclass(frozen=True, slots=True)
class Card:
    """One card that was printed: its procedure, its title, its code, and whether something went to the book."""

    procedure: str
    title: str
    code: str
    sides: int
    shortened: bool


@dataclass(frozen=True, slots=True)
class Refusal:
    """A procedure that fits no card, and why."""

    procedure: str
    why: str


@dataclass
class Cards:
    """Cards printed together; nothing is printed where none fits."""

    printed: Printed | None = None
    cards: list[Card] = field(default_factory=list)
    refused: list[Refusal] = field(default_factory=list)


def make_cards(
    analysis: Analysis, procedures: Sequence[str], *, paper: CardPaper = "a4", system: System = "both",
    fonts: Path | None = None, tell: Tell = quiet,
) -> Cards:
    """Cards of these procedures in one PDF, each on a sheet of its own. Raises CannotPrint."""
    with workplace() as folder:
        files = font_files(fonts)
        press = Press(Path(folder), files, analysis.today)
        letters, pictures = letters_of(files), Pictures(press.pictures, press.shows, wide=1000)
        view, as_data = NotebookView(analysis, system), AsData(letters, pictures.of)
        data = [_card(view, id_, as_data) for id_ in procedures]
        whole = {**shop_data(view, as_data, letters), "paper": _SIZES[paper], "title": _title(data), "cards": data,
                 "book_paper": paper.upper() if paper == "a4" else "Letter"}
        press.lay_out(whole)
        made = Cards()
        fits = _fits(press, data, tell, made)
        if any(fit.leave for fit, _ in fits):
            tell("Looking up the pages of the book", 0, 1)
            pages = book_pages(analysis, paper, system, fonts)
            for _, one in fits:
                one["page"] = pages.get(f"procedure:{one['id']}")
        if fits:
            press.lay_out({**whole, "cards": [one for _, one in fits]})
            done = press.pull("cards.typ")
            made.printed = Printed(done, sides_of(done), lacks_told(letters, pictures))
    return made


def _fits(press: Press, data: list[dict[str, Any]], tell: Tell, made: Cards) -> list[tuple[Fit, dict[str, Any]]]:
    found = []
    for number, one in enumerate(data):
        tell("Fitting the cards", number, len(data))
        fit = fitted(press, number, len(one["steps"]))
        if isinstance(fit, TooLong):
            made.refused.append(Refusal(one["id"], _too_long(one, fit)))
            continue
        one |= {"leave": fit.leave, "air": fit.air, "whole": fit.whole, "sides": fit.sides}
        made.cards.append(Card(one["id"], one["title"], one["code"], fit.sides, fit.leave > 0))
        found.append((fit, one))
    return found


def _too_long(card: dict[str, Any], fit: TooLong) -> str:
    step = next(one for one in card["steps"] if one["number"] == fit.step)
    said = "".join(piece for piece in step["do"] if isinstance(piece, str)) or "its work"
    return (f"“{card['title']}” takes {fit.sides} sides and a card has two. Step {fit.step} takes the most room: "
            f"“{said[:70]}”. Make a procedure of its own of it, or of some steps, and write `use:` in their place.")


def _title(data: list[dict[str, Any]]) -> str:
    return f"{data[0]['title']}: bench card" if len(data) == 1 else "Bench cards"


# --- one card ---------------------------------------------------------------------------------------------------


def _card(view: NotebookView, id_: str, as_data: AsData) -> dict[str, Any]:
    told, own = _told(view, id_), view.notebook.procedures[id_]
    as_data.turn_to("", told.title)
    dates = [revision.date for revision in own.revisions if revision.date is not None]
    newest = max(dates, key=lambda leaf: leaf.value.last, default=None)
    return {**as_data.of(told), "id": id_, "code": _code(id_, told), "written": date_words(newest), "page": None,
            "long_rows": [row for row in as_data.of(told.rows) if row[0] not in _AT_ONCE]}


def _told(view: NotebookView, id_: str) -> CardView:
    scope = ProcedureScope(view, view.notebook.procedures[id_], apart=True)
    return card_view(scope, procedure_view(scope, None))


def card_code(view: NotebookView, id_: str) -> str:
    """The code of a procedure's card as it would be printed now: another one if anything on the card is another."""
    return _code(id_, _told(view, id_))


def _code(id_: str, told: CardView) -> str:
    words = json.dumps(AsData(_AnyLetters(), _picture_seal).of(told), ensure_ascii=False, sort_keys=True)
    return code_of(("card", id_), ("card", id_, words))


class _AnyLetters:
    """Takes every letter: a code does not depend on the fonts."""

    def set(self, text: str, where: str) -> str:
        """The text as it is."""
        del where
        return text


def _picture_seal(shot: Shot) -> dict[str, Any]:
    """A picture by what is in its file."""
    try:
        data = shot.path.read_bytes() if shot.path is not None else b""
    except OSError:
        data = b""
    return {"file": hashlib.sha256(data).hexdigest()}
