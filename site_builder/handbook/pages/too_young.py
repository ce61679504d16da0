"""What somebody may not do yet because of their age, and from which day they may."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.model.people import Person
from site_builder.notebook.spans import day_after
from site_builder.views.dates import dated_day
from site_builder.views.prose import Prose, listed, lowered, say


@dataclass(frozen=True, slots=True)
class NotYet:
    """A skill or thing with its least age for people, and the day on which the person reaches it."""

    kind: str
    id: str
    level: str
    least: str
    day: date


def not_yet(people_index: PeopleIndex, person: Person) -> list[NotYet]:
    """Skills, then tools and materials, for which somebody is too young, the soonest first.

    Of a year of birth without a day the last day counts: nobody works a year too early for want of a date.
    """
    if person.born is None:
        return []
    born = person.born.value.last
    found = (NotYet(kind, id_, level, least, day_after(born, seconds))
             for kind, id_, level, seconds, least in people_index.least_ages)
    return sorted(
        (one for one in found if one.day > people_index.today), key=lambda one: (one.kind != "skill", one.day)
    )


def any_age(people_index: PeopleIndex) -> bool:
    """Whether the shop draws a line of age anywhere."""
    return bool(people_index.least_ages)


def in_words(context: PageContext, found: list[NotYet]) -> Iterator[Prose]:
    """A line for each day and kind: from when, and what."""
    groups: dict[tuple[date, str, str, str], list[NotYet]] = {}
    for one in found:
        groups.setdefault((one.day, one.kind, one.level, one.least), []).append(one)
    for (day, kind, level, least), ones in groups.items():
        named = listed(context.link(one.kind, one.id, lowered(context.title(one.kind, one.id))) for one in ones)
        what = say("{}{}", named, f" {level}" if level else "")
        use = "" if kind == "skill" else "to use "
        yield say("**Not before {}** {}{}: {} old.", dated_day(day), use, what, least)
