"""Things and people by the names that the shop calls them; ids are never shown."""

from __future__ import annotations

import re
from collections.abc import Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.bench.spoken_values import value_words
from site_builder.notebook.notebook import Notebook
from site_builder.views.dates import dated_day

_ID = re.compile(r"`([a-z0-9][a-z0-9-]*)`")
_FIRST_TEN = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


class Names:
    """The names of one notebook."""

    def __init__(self, survey: Analysis, near: str = "") -> None:
        """``near`` is the procedure whose steps are named without it."""
        self._survey = survey
        self._near = near
        self._book = survey.notebook

    @property
    def book(self) -> Notebook:
        """The notebook itself."""
        return self._book

    @property
    def nouns(self) -> frozenset[str]:
        """What the shop counts in: the words of its glossary."""
        shop = self._book.shop
        return frozenset(str(one).lower() for one in shop.words) if shop is not None else frozenset()

    @property
    def shop(self) -> str:
        return str(self._book.shop.title) if self._book.shop is not None else self._book.root.name

    def person(self, id_: str) -> str:
        """The full name; the words as written where the notebook knows nobody of that id."""
        known = self._book.people.get(id_)
        return str(known.name) if known is not None else id_

    def first(self, id_: str) -> str:
        """What somebody is called; the full name where two are called the same."""
        full = self.person(id_)
        name = full.partition(" ")[0]
        same = sum(str(one.name).partition(" ")[0] == name for one in self._book.people.values())
        return name if same <= 1 else full

    def thing(self, id_: str) -> str:
        """Whatever it is."""
        if self._book.shop is not None and id_ == str(self._book.shop.shop):
            return self.shop
        entry = self._book.entry(id_)
        return str(getattr(entry, "title", None) or getattr(entry, "name", None) or id_)

    def spoken(self, text: str) -> str:
        """What a reference names: a thing or a person; as written where it is a name from outside."""
        if text in self._book.people:
            return self.person(text)
        owner, _, rest = text.partition("/")
        near = self._book.procedures.get(self._near)
        if near is not None and text in near.steps_by_id:
            return f"step {near.numbers.get(id(near.steps_by_id[text]), '')}"
        own = self._book.procedures.get(owner)
        step = own.steps_by_id.get(rest.partition("/")[0]) if own is not None and rest else None
        if own is not None and step is not None:
            return f"{own.title}, step {own.numbers.get(id(step), '')}"
        return self.thing(owner) if rest else self.thing(text)

    def part_called(self, words: str) -> str | None:
        """The id of the part that is called so."""
        wanted = words.casefold()
        return next((id_ for id_, one in self._book.parts.items() if wanted in (id_, str(one.title).casefold())), None)

    def people(self, ids: Sequence[str]) -> str:
        """``Edda, Tilde``."""
        return ", ".join(self.first(one) for one in ids)

    def said(self, text: str) -> str:
        """A sentence of the law, with names for ids."""
        return _ID.sub(lambda found: self._spoken(found[1]), text)

    def plainly(self, text: str) -> str:
        """A sentence for a person: names for ids, and no mark of a file between backticks."""
        told = re.sub(r"`([^`]*)`", lambda found: value_words(found[1]), self.said(text))
        return re.sub(r"(\d)\.\.(-?\d)", r"\1 to \2", told)

    def _spoken(self, id_: str) -> str:
        if id_ in self._book.people:
            return self.first(id_)
        named = self.thing(id_)
        return f"“{named}”"

    @staticmethod
    def number(count: int) -> str:
        """Up to ten in words."""
        return _FIRST_TEN[count] if 0 <= count <= 10 else str(count)

    @property
    def today(self) -> str:
        return dated_day(self._survey.today)
