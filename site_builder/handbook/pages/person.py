"""The page of a person: what they do, what they still have to show, who taught them, their own book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages import own_book, too_young
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.hands_index import stay
from site_builder.handbook.pages.learn_next import could_learn
from site_builder.handbook.pages.own_weeks import weeks_of_person
from site_builder.handbook.pages.papers_told import papers_rows
from site_builder.handbook.pages.people_index import OwnBook, PeopleIndex, entry_anchor
from site_builder.handbook.pages.practice_charts import SKILLS, drawn_skills, practice_charts
from site_builder.handbook.pages.proof_so_far import piece_name, plain_pieces, plain_trial
from site_builder.handbook.pages.reasons_given import reasons_given, star
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, LINEAGE, Page
from site_builder.notebook.model.people import Person
from site_builder.skills.feel_told import compared
from site_builder.skills.holders import LEVELS, Held
from site_builder.views.counts import number
from site_builder.views.dates import dated_day
from site_builder.views.prose import Prose, Ref, capital, joined, linked, listed, lowered, prose, say, sentence

_ALONE = LEVELS.index("alone") + 1
_SOON = 183
"""Days: who must practise within half a year should know it."""
_NOTHING = OwnBook((), {})
Signed = tuple[tuple[str, tuple[str, ...]], ...]


def person_sheet(people_index: PeopleIndex, id_: str) -> Page:
    """The page of one person."""
    book, person = people_index.book, people_index.book.notebook.people[id_]
    src_uri = book.addresses["person", id_]
    context = PageContext(book, src_uri)
    title, here = context.title("person", id_), person.left is None
    lede, own = _lede(context, person), people_index.own_books.get(id_, _NOTHING)
    held = book.analysis.holders.of_person(id_)
    html = pressed(
        "person.html.j2", context,
        kicker=say("{} · People", linked("The hands", Ref("chapter", HANDS))),
        title=title,
        lede=lede,
        figures=figure_views(context, "person", id_),
        unsound=unsound(book, (person.at.path,)),
        note=context.words(person.note),
        gone="" if here else f"{people_index.short[id_]} is not in the shop any more, and signs for nobody.",
        founding=_founding(people_index, id_, person),
        does_title=f"What {people_index.short[id_]} {'does now' if here else 'was signed for'}",
        does=[*_does(context, held)],
        reasons=[*reasons_given(people_index, context, (one.entry for one in held), named=False)],
        resting=[*_resting(people_index, context, held)] if here else [],
        could_learn=[*could_learn(people_index, context, id_, person)] if here else [],
        practised=[*_practised(people_index, context, id_)],
        charts=[*practice_charts(people_index, context, id_)],
        cut=f"Drawn are the skills on the way and those practised last, {number(SKILLS)} at most."
        if len(people_index.practised(id_)) > SKILLS
        else "",
        to_show=[*_to_show(people_index, context, id_, held)] if here else [],
        taught_by=_signed(context, people_index.taught_by.get(id_, ())),
        has_taught=_signed(context, people_index.has_taught.get(id_, ())),
        lineage=say("{} shows the whole line.", linked("Who taught whom", Ref("chapter", LINEAGE))),
        not_before=[*_not_before(people_index, context, person)] if here else [],
        papers=[*papers_rows(people_index, context, id_, person)],
        weeks=weeks_of_person(context, id_) if here else None,
        own_title=f"In {people_index.short[id_]}’s own book",
        own=own_book.lines(people_index, context, own),
        counted=own_book.counted(own),
    )
    parts = (Part("does", f"{title}: what {people_index.short[id_]} does",
                  ", ".join(f"{context.title('skill', one.skill)} {one.level}" for one in held)),)
    return Page(src_uri, title, html, lede.plain, parts, person.at.path)


def _lede(context: PageContext, person: Person) -> Prose:
    """Role, time in the shop, year of birth, working time."""
    first = joined((part for part in (context.words(person.role), stay(context, person)) if part), ", ")
    told = [capital(sentence(first))] if first else []
    if person.born is not None:
        told.append(say("Born in {}.", person.born.value.first.year))
    if person.hours is not None and person.left is None:
        told.append(say("Works {}.", context.value(person.hours)[0].replace("/", " a ")))
    for lead, leaf in (("for lessons, given or taken", person.learning), ("for other work", person.other)):
        if leaf is not None and person.left is None:
            told.append(say("Of it {} {}.", context.value(leaf)[0].replace("/", " a "), lead))
    scope = context.scope(person)
    more = [scope.inline_why(person), *scope.tail(person.with_changes(note=None)), scope.only(person).words]
    return joined([*told, *more])


def _founding(people_index: PeopleIndex, id_: str, person: Person) -> str:
    if person.founding not in ("yes", "true"):
        return ""
    name = people_index.short[id_]
    signs = f" {name} may sign for every skill." if person.left is None else ""
    return f"The chain of sign-offs begins with {name}: this mastery is taken as given.{signs}"


def _does(context: PageContext, held: tuple[Held, ...]) -> Iterator[tuple[str, Prose]]:
    """The skills at each level, each leading to the entry that gave it."""
    for level in reversed(LEVELS):
        links = [
            _held(context, one) for one in held if one.level == level
        ]
        if links:
            yield level, capital(listed(links))


def _held(context: PageContext, one: Held) -> Prose:
    """A skill, leading to the entry that gave it, and whether it rests."""
    skill = context.link("skill", one.skill, lowered(context.title("skill", one.skill)), entry_anchor(one.entry))
    link = joined((skill, star(one.entry)), "")
    if one.rests_since is None:
        return link
    return say("{} (**rests** since {})", link, dated_day(one.rests_since))


def _resting(people_index: PeopleIndex, context: PageContext, held: tuple[Held, ...]) -> Iterator[Prose]:
    """What rests for want of a paper or of practice, and what will within the next half year without practice."""
    for one in held:
        if one.paper is not None and one.paper.last is not None:
            yield say("**Rests since {}:** {}. It holds again when “{}” is renewed.", dated_day(one.paper.last),
                         context.link("skill", one.skill, lowered(context.title("skill", one.skill))),
                         context.words(one.paper.paper.paper))
    found = [(until, one) for one in held if (until := people_index.fresh_until(one)) is not None]
    for until, one in sorted(found, key=lambda pair: (pair[0], pair[1].skill)):
        skill = context.link("skill", one.skill, lowered(context.title("skill", one.skill)), "fresh")
        if until < people_index.today:
            yield say("**Rests since {}:** {}. It holds again with the next practice that is entered.",
                         dated_day(until), skill)
        elif (until - people_index.today).days <= _SOON:
            yield say("**By {}:** {}.", dated_day(until), skill)


@dataclass(frozen=True, slots=True)
class ToShow:
    """A skill on the way: how far, what is missing, whom to ask, where to study it."""

    skill: str
    title: str
    level: str
    signed: int
    asked: int
    missing: tuple[Prose, ...]
    ask: Prose
    ways: tuple[tuple[str, str], ...]
    """(address, words)."""


def _to_show(people_index: PeopleIndex, context: PageContext, id_: str, held: tuple[Held, ...]) -> Iterator[ToShow]:
    for one in held:
        skill = people_index.book.notebook.skills.get(one.skill)
        if skill is None or one.rank >= _ALONE:
            continue
        missing = [show for show in skill.checklist
                   if show.id is None or (id_, one.skill, str(show.id)) not in people_index.shown]
        teachers = [context.link("person", who) for who in people_index.signers[one.skill] if who != id_]
        signed = len(skill.checklist) - len(missing)
        yield ToShow(
            one.skill, context.title("skill", one.skill), one.level, signed, len(skill.checklist),
            tuple(context.words(show.show) for show in missing),
            say("Ask {}.", listed(teachers, "or")) if teachers else prose("Nobody here may sign for it."),
            tuple(_ways(context, id_, one.skill, f"shown-{id_}" if signed else "checklist")),
        )


def _ways(context: PageContext, id_: str, skill: str, anchor: str) -> Iterator[tuple[str, str]]:
    """Where the skill is studied, what it asks for, and the list to be signed on paper."""
    for words, href in (
        ("The skill", context.href("skill", skill, anchor)), ("Study it", context.href("study", skill)),
        ("Print the list", context.href("checklist", skill, f"for-{id_}")),
    ):
        if href is not None:
            yield href, words


def _practised(people_index: PeopleIndex, context: PageContext, id_: str) -> Iterator[Prose]:
    """Of each skill that is drawn: how the pieces turned out, and the newest trial by feel, in plain words."""
    for skill in drawn_skills(people_index, id_):
        trials = [*compared(people_index.evidence_book, id_, skill, people_index.today,
                            lambda piece: piece_name(context, piece))]
        told = [*plain_pieces(people_index.progress(id_, skill)),
                *(plain_trial(people_index, context, id_, one) for one in trials[-1:])]
        if told:
            yield say("**{}.** {}", context.link("skill", skill), joined(told))


def _signed(context: PageContext, signed: Signed) -> list[Prose]:
    return [
        say("**{}**: {}.",
            context.person(other), listed(context.link("skill", s, lowered(context.title("skill", s))) for s in skills))
        for other, skills in signed
    ]


def _not_before(people_index: PeopleIndex, context: PageContext, person: Person) -> Iterator[Prose]:
    if person.born is None and too_young.any_age(people_index):
        yield say("It is not written when {} was born. Ask before anything that has a least age.",
            context.plain(person.name))
    yield from too_young.in_words(context, too_young.not_yet(people_index, person))
