"""Licences and certificates in words: which one is wanted first, and until when those of somebody are good."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.model.people import Person
from site_builder.skills.papers import BESIDE, papers_asked
from site_builder.views.dates import dated_day
from site_builder.views.prose import NO_WORDS, Prose, listed, lowered, prose, say, toned
from site_builder.views.rest import tailed


def papers_first(people_index: PeopleIndex, context: PageContext, person: str, skill: str) -> Prose:
    """``The paper comes first: Mask fit test, of which none is written.`` Empty where all are there."""
    wanting = [
        say("{}, which was good until {}", context.words(one.paper.paper), dated_day(one.last))
        if one.last is not None
        else say("{}, of which none is written", context.words(one.paper.paper))
        for one in papers_asked(people_index.book.notebook, person, skill, people_index.today)
        if one.wanting(people_index.today)
    ]
    if not wanting:
        return NO_WORDS
    return say("{} first: {}.", "The paper comes" if len(wanting) == 1 else "The papers come", listed(wanting))


def papers_rows(people_index: PeopleIndex, context: PageContext, id_: str, person: Person) -> Iterator[list[Prose]]:
    """Every paper of somebody: issued, good until, asked for by; then those that are asked for and not written."""
    for paper in person.papers:
        known = people_index.papers.get((id_, str(paper.paper).lower()))
        newest = known is not None and paper.date is not None and known.at == paper.date.at
        until = NO_WORDS
        if newest and known is not None:
            until = say("{}{}", dated_day(known.last), "; lapsed" if known.last < people_index.today else "")
        asked = listed(lowered(skill) for skill in known.skills) if newest and known is not None else NO_WORDS
        scope = context.scope(person)
        named = tailed(scope, paper, context.words(paper.paper), ("paper", "date"))
        yield [named, prose(context.date(paper.date)), until, asked]
    missing: dict[str, list[Prose]] = {}
    for held in people_index.book.analysis.holders.of_person(id_) if person.left is None else ():
        for one in (
            papers_asked(people_index.book.notebook, id_, held.skill, people_index.today) if held.rank >= BESIDE else ()
        ):
            if one.own is None:
                link = context.link("skill", held.skill, lowered(context.title("skill", held.skill)))
                missing.setdefault(str(one.paper.paper), []).append(link)
    for name, skills in missing.items():
        yield [context.words(name), toned("lead", "none is written"), NO_WORDS, listed(skills)]
