"""Things and people by the names that the shop calls them; ids are never shown."""

from __future__ import annotations

import re
from collections.abc import Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.views.dates import dated_day

_ID = re.compile(r"`([a-z0-9][a-z0-9-]*)`")
_FIRST_TEN = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


class Names:
    """The names of one notebook."""

    def __init__(self, survey: Analysis) -> None:
        self._survey = survey
        self._book = survey.notebook

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

    def people(self, ids: Sequence[str]) -> str:
        """``Edda, Tilde``."""
        return ", ".join(self.first(one) for one in ids)

    def said(self, text: str) -> str:
        """A sentence of the law, with names for ids."""
        return _ID.sub(lambda found: self._spoken(found[1]), text)

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
