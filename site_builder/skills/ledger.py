"""The book of sign-offs read entry by entry: what everybody holds, and has shown, after each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.notebook.model.records import SignOff

LEVELS = ("watches", "beside", "within call", "alone", "teaches")
"""Our words for the five-step scale of entrustment, from looking on to teaching."""


def rank(level: str) -> int:
    """1 watches … 5 teaches."""
    return LEVELS.index(level) + 1


class Ledger:
    """What stands after the entries that were entered so far."""

    def __init__(self) -> None:
        self._of: dict[tuple[str, str], list[SignOff]] = defaultdict(list)
        self._entries: dict[int, SignOff] = {}
        self._given: list[SignOff] = []
        self.gone: dict[int, SignOff] = {}
        """Numbers of entries that a later one withdraws or corrects, with that later entry."""

    def enter(self, entry: SignOff, *, gives: bool = True) -> None:
        """Take the next entry of the book into account; one that ``gives`` nothing can only be answered."""
        for earlier in (entry.withdraws, entry.corrects) if gives else ():
            if earlier is not None and int(earlier) in self._entries:
                self.gone[int(earlier)] = entry
        self._entries[entry.number] = entry
        if not gives:
            return
        if entry.withdraws is None:
            self._given.append(entry)
            if entry.learner is not None and entry.skill is not None:
                self._of[str(entry.learner), str(entry.skill)].append(entry)

    def entry(self, number: int) -> SignOff | None:
        """An entry that was entered."""
        return self._entries.get(number)

    @property
    def standing(self) -> tuple[SignOff, ...]:
        """The entries that give something, in order: no withdrawals, and none that was taken back or corrected."""
        return tuple(entry for entry in self._given if entry.number not in self.gone)

    @property
    def holding(self) -> Iterator[tuple[str, str, SignOff]]:
        """(person, skill, the entry that gives what they hold in it)."""
        for person, skill in self._of:
            entry = self.held(person, skill)
            if entry is not None:
                yield person, skill, entry

    def held(self, person: str, skill: str) -> SignOff | None:
        """The entry that gives a person what they hold in a skill: the latest that names a level."""
        return next(
            (entry for entry in reversed(self._of.get((person, skill), ()))
             if entry.level is not None and entry.number not in self.gone), None,
        )

    def shown(self, person: str, skill: str) -> dict[str, SignOff]:
        """The checklist items somebody has shown, each with the first entry that says so."""
        found: dict[str, SignOff] = {}
        for entry in self._of.get((person, skill), ()):
            if entry.number not in self.gone:
                for item in entry.items:
                    found.setdefault(str(item), entry)
        return found
