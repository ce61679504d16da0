"""What was measured and timed at the work of a skill, told for a craftsman."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.skills.measured import ENOUGH, Measured, Timed, measured, timed
from site_builder.skills.proof.wording import figure, tell_capability, tell_gauge, tell_limits
from site_builder.views.path import named_value
from site_builder.views.prose import Prose, capital, listed, say
from site_builder.views.typeset import typeset


def measured_so_far(people_index: PeopleIndex, context: PageContext, skill: str) -> Iterator[Prose]:
    """A line for each limit that was measured, then for each procedure that was timed."""
    for one in measured(people_index.evidence_book, skill, people_index.today):
        yield _limit(context, one)
    for time in timed(people_index.evidence_book, skill, people_index.today):
        yield _time(context, time)


def _limit(context: PageContext, one: Measured) -> Prose:
    count = len(one.readings)
    told = [f"{count} reading{'s' * (count != 1)}."] if count else []
    if one.steady is not None:
        told.append(tell_limits(one.steady, one.unit))
    elif 0 < count < ENOUGH:
        told.append(f"With {ENOUGH - count} more it can be told whether the work is steady.")
    if one.steady is not None and not one.steady.steady:
        told.append("Whether it fits its limit can be told once it is steady.")
    if one.fits is not None:
        told.append(tell_capability(one.fits))
    words = say("**{}**: {}", capital(named_value(context.book.views, one.path)), typeset(" ".join(told)))
    if one.gauge is None:
        return words
    first = one.gauge_entries[0]
    people = dict.fromkeys(str(entry.who) for entry in one.gauge_entries)
    named = listed(context.person(person) for person in people)
    tool = listed(context.any_link(str(use), ("tool",)) for use in first.with_)
    return say("{} {} ({}, read in rounds by {} on {}).", words,
                  typeset(tell_gauge(one.gauge)).rstrip("."), tool, named, context.date(first.date))


def _time(context: PageContext, one: Timed) -> Prose:
    mean = sum(one.minutes) / len(one.minutes)
    if one.enough is None:
        enough = "too few to tell how well that is known"
    elif one.enough.more:
        enough = f"time it {one.enough.more} more time{'s' * (one.enough.more != 1)} to know it to a twentieth"
    else:
        enough = "timed often enough to know it to a twentieth"
    return say("**{}**: {}", context.link("procedure", one.procedure), typeset(
        f"{figure(mean)} min a piece by {len(one.minutes)} timings of hands that work alone, no rest allowed for; "
        f"{enough}."))
