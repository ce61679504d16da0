"""Licences and certificates: what a skill asks for besides, and until when what somebody holds of it is good."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from site_builder.notebook.model.people import Person
from site_builder.notebook.model.small import Paper
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.spans import day_after, longest_span
from site_builder.skills.ledger import rank

BESIDE = rank("beside")
"""From here on the hands do something, and the paper is asked for."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A paper that a skill asks for and what somebody holds of it on a day.

    ``own`` is the newest; None where none is written. ``last``: the last day on which it is good; None where that
    cannot be told, or it never ends.
    """

    paper: Paper
    own: Paper | None
    last: date | None

    @property
    def untold(self) -> bool:
        """Whether it cannot be told if somebody holds it at all, or still: none is written, or without its day."""
        return self.own is None or (self.own.date is None and span_of(self.paper, self.own) is not None)

    def wanting(self, day: date) -> bool:
        """Whether it is wanted before the hands may begin: none is written, or it has run out."""
        return self.own is None or (self.last is not None and self.last < day)


def papers_asked(notebook: Notebook, person: str, skill: str, day: date) -> Iterator[Asked]:
    """Every paper that a skill asks for, with what somebody held of it on a day."""
    known, who = notebook.skills.get(skill), notebook.people.get(person)
    if known is None or who is None:
        return
    for paper in known.papers:
        own = newest(who, str(paper.paper), day)
        told = span_of(paper, own) if own is not None else None
        dated = own.date if own is not None else None
        last = day_after(dated.value.last, told) if told is not None and dated is not None else None
        yield Asked(paper, own, last)


def run_out(notebook: Notebook, person: str, skill: str, level: str, day: date) -> Asked | None:
    """The paper without which somebody's skill rests on a day: the one that ran out first; None where none did.

    One that was never written down lets nothing rest: perhaps it hangs on the wall. It is asked for.
    """
    if rank(level) < BESIDE:
        return None
    gone = [one for one in papers_asked(notebook, person, skill, day) if one.last is not None and one.last < day]
    return min(gone, key=lambda one: one.last or date.max, default=None)


def newest(person: Person, paper: str, day: date | None = None) -> Paper | None:
    """Of the papers of one name the one with the latest date up to a day; one without a date comes before all.

    A renewal is a line of its own.
    """
    named = [one for one in person.papers if one.paper.lower() == paper.lower()
             and (day is None or one.date is None or one.date.value.first <= day)]
    return max(named, key=lambda one: one.date.value.last if one.date is not None else date.min, default=None)


def span_of(*papers: Paper) -> Fraction | None:
    """The shortest time for which these say that it is good."""
    told = [span for one in papers if one.valid is not None and (span := longest_span(one.valid.value)) is not None]
    return min(told, default=None)
