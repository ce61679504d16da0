"""What somebody may not do yet because of their age, and from which day they may."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import listed, lowered
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.gather import ages_of
from site_builder.notebook.model.people import Person
from site_builder.notebook.references import kind_of
from site_builder.notebook.spans import day_after, least_span
from site_builder.quantity import for_people, parse_value
from site_builder.views.counts import spelt
from site_builder.views.dates import dated_day

_LEVELS = ("beside", "within call", "alone")
"""The levels at which the hands do something; a look from behind the line is not work."""


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
             for kind, id_, level, seconds, least in _limits(people_index))
    return sorted(
        (one for one in found if one.day > people_index.today), key=lambda one: (one.kind != "skill", one.day)
    )


def any_age(people_index: PeopleIndex) -> bool:
    """Whether the shop draws a line of age anywhere."""
    return next(_limits(people_index), None) is not None


def in_words(context: PageContext, found: list[NotYet]) -> Iterator[Markup]:
    """A line for each day and kind: from when, and what."""
    groups: dict[tuple[date, str, str, str], list[NotYet]] = {}
    for one in found:
        groups.setdefault((one.day, one.kind, one.level, one.least), []).append(one)
    for (day, kind, level, least), ones in groups.items():
        named = listed(context.link(one.kind, one.id, lowered(context.title(one.kind, one.id))) for one in ones)
        what = Markup("{}{}").format(named, f" {level}" if level else "")
        use = "" if kind == "skill" else "to use "
        yield Markup("<b>Not before {}</b> {}{}: {} old.").format(dated_day(day), use, what, least)


def _limits(people_index: PeopleIndex) -> Iterator[tuple[str, str, str, Fraction, str]]:
    """(kind, id, level, seconds, the age for people) of every line that is drawn."""
    for skill in people_index.book.notebook.skills:
        least = {level: age for level in _LEVELS if (age := people_index.ages.of_skill(skill, level)) is not None}
        for seconds in sorted({age.seconds for age in least.values()}):
            levels = [level for level, age in least.items() if age.seconds == seconds]
            said = "" if len(levels) == len(_LEVELS) else listed(levels, "or").replace("beside", "beside somebody")
            age = next(age for age in least.values() if age.seconds == seconds)
            yield "skill", skill, str(said), seconds, _for_people(age.written)
    for id_, thing in people_index.book.notebook.things.items():
        told = [(span, str(limit.written)) for limit in ages_of(thing)
                if limit.written is not None and not limit.for_
                and (span := least_span(limit.written.value)) is not None]
        if told:  # the thing itself and each of its hazards may ask for an age: who has the highest has them all
            span, written = max(told)
            yield kind_of(thing), id_, "", span, _for_people(written)


def _for_people(written: str) -> str:
    return spelt(for_people(parse_value(written)).main)
