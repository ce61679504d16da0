"""Who stands beside which day: every place where a person and a date are written together."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.records.standing import answered
from site_builder.checks.rules.values.held import once
from site_builder.notebook.model.limit import Saying
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.records import Incident, Measurement, Practice, Trial
from site_builder.notebook.model.shop import Change
from site_builder.notebook.model.small import Calibration, Revision
from site_builder.notebook.model.things import Upkeep
from site_builder.notebook.tree import Text

BOOKS = (Practice, Trial, Measurement, Incident)
"""The book of sign-offs has its law."""


class Signed(NamedTuple):
    """A person of the shop and the day on which they did or said it."""

    who: Text
    person: Person
    date: Dated
    told: bool
    """Whether it is only an answer, which somebody may give who is no longer there."""
    owner: str


@once
def signers(analysis: Analysis) -> tuple[Signed, ...]:
    """Everybody who signs anything with a day."""
    return tuple(_signers(analysis))


def _signers(analysis: Analysis) -> Iterator[Signed]:
    people, gone = analysis.notebook.people, answered(analysis.notebook)
    for kind in (Revision, Saying, Calibration, Upkeep, Change, *BOOKS):
        for entry, place in analysis.index.of(kind):
            who, date = getattr(entry, "who", None), getattr(entry, "date", None)
            if who is not None and date is not None and str(who) in people and place.owner_id not in gone:
                yield Signed(who, people[str(who)], date, kind is Saying, place.owner_id)


@once
def first_signed(analysis: Analysis) -> dict[str, datetime.date]:
    """The first day on which each person signed anything, the book of sign-offs included."""
    found: dict[str, datetime.date] = {}
    days = [(str(one.who), one.date) for one in signers(analysis)]
    days += [(str(one.who), one.date) for one in analysis.notebook.sign_offs if one.who and one.date]
    for who, date in days:
        found[who] = min(found.get(who, date.value.first), date.value.first)
    return found
