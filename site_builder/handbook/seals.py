"""The last seals of the books, which every page carries away from the disk they stand on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.analysis.analysis import Analysis
from site_builder.quantity import NotationError, parse_date
from site_builder.views.dates import dated_day

NAMES = {
    "sign-off": "sign-offs", "practice": "practice", "trial": "feel trials", "measurement": "measurements",
    "incident": "incidents",
}


@dataclass(frozen=True, slots=True)
class LastSeal:
    """The last entry of a book: its number, its day in words, its seal in 64 digits."""

    kind: str
    number: int
    day: str
    seal: str

    @property
    def spaced(self) -> str:
        """The seal in groups of eight, as it is read from paper."""
        return " ".join(self.seal[i : i + 8] for i in range(0, len(self.seal), 8))


def last_seals(analysis: Analysis) -> Iterator[LastSeal]:
    """Of each book that is whole and under seal."""
    for kind, verdict in analysis.verdicts.items():
        book = verdict.book
        if book is not None and verdict.sealed and book.entries and not verdict.faults:
            last = book.entries[-1]
            yield LastSeal(kind, last.number, _day(last.text("date")), last.seal)


def seal_line(analysis: Analysis) -> str:
    """What every page says of the book of sign-offs; empty where it is not under seal."""
    one = next((one for one in last_seals(analysis) if one.kind == "sign-off"), None)
    if one is None:
        return ""
    return f"Book of sign-offs: entry {one.number}{f' of {one.day}' if one.day else ''}, seal {one.spaced}"


def _day(text: str) -> str:
    try:
        return dated_day(parse_date(text).last)
    except NotationError:
        return text
