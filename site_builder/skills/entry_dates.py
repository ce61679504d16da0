"""The dates of a book: none lies ahead, none runs backward.

Two clocks may be a day apart, since it is tomorrow already further east; by so much a date may lie ahead of today, and
before the one above it. An entry from further ahead (a clock that was set wrong) is told by itself, and is no measure
for those after it: they keep their honest dates, and one of them takes it back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import TypeVar

from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.records import Record

APART = timedelta(days=1)
"""So far two clocks may be apart."""
NOT_YET = "{} is not yet come; an entry is made for what has been."
BEFORE = "{} is before {}, the date of an earlier entry."
MEND = "Nothing in a book is rewritten: add an entry that is right, with `corrects: {}` and the reason."
"""What to do about a wrong entry, for its number."""
R = TypeVar("R", bound=Record)


def answered_in(entries: Iterable[Record]) -> frozenset[int]:
    """The numbers of the entries of one book that a later one corrects or withdraws."""
    return frozenset(int(earlier) for entry in entries for earlier in (entry.corrects, entry.withdraws)
                     if earlier is not None and int(earlier) < entry.number)


def wrong_dates(entries: Sequence[Record], today: date) -> Iterator[tuple[Record, str]]:
    """The entries of a book that still stand and lie ahead or run backward, with what is wrong."""
    answered = answered_in(entries)
    for entry in entries:
        if entry.number not in answered and lies_ahead(entry, today):
            yield entry, NOT_YET.format(entry.date)
    for entry, latest in backward(entries, answered, today):
        yield entry, BEFORE.format(entry.date, latest)


def lies_ahead(entry: Record, today: date) -> bool:
    """Whether an entry is dated later than any clock shows today."""
    return entry.date is not None and entry.date.value.first - APART > today


def backward(entries: Iterable[R], answered: frozenset[int], today: date) -> Iterator[tuple[R, Dated]]:
    """The entries before whose day an earlier one of the book is dated, each with that date.

    Numbers in ``answered`` were taken back or corrected: neither are they told, nor are they a measure for others.
    """
    latest: Dated | None = None
    for entry in entries:
        if entry.date is None or entry.number in answered or lies_ahead(entry, today):
            continue
        if latest is not None and is_before(entry, latest):
            yield entry, latest
        elif latest is None or entry.date.value.first > latest.value.first:
            latest = entry.date


def is_before(entry: Record, latest: Dated) -> bool:
    """Whether an entry is dated before a day, by more than two clocks may be apart."""
    return entry.date is not None and entry.date.value.last + APART < latest.value.first
