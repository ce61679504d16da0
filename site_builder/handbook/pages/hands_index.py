"""The hands: who can do what, what would be lost with whom, and the way to every person and skill."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex, entry_anchor
from site_builder.handbook.pages.reasons_given import reasons_given, star
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.seals import NAMES, last_seals
from site_builder.handbook.site import HANDS, LESSONS, LINEAGE, WITHOUT, Page
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.records import SignOff
from site_builder.views.counts import number
from site_builder.views.dates import dated_day
from site_builder.views.prose import (
    Prose,
    Ref,
    capital,
    joined,
    linked,
    listed,
    lowered,
    prose,
    say,
    sentence,
)

LEVEL_KEY = (
    ("watches", "stands by and learns to see"),
    ("beside", "does it with the teacher at the bench"),
    ("within call", "does it; the teacher is in the shop"),
    ("alone", "does it and answers for it"),
    ("teaches", "does it, shows it, may sign for others"),
)
_ABREAST = 6
"""So many people stand side by side in one table; more would not go on a page."""

_NAMED = 3
"""So many skills are named in the opening sentence; more are counted there and named below."""

Cell = tuple[str, str | None, bool, str]
"""Level, address of the sign-off that gave it, whether it rests, and the mark of one without the proof."""
Row = tuple[tuple[str, str | None], list[Cell]]


def hands_sheet(people_index: PeopleIndex) -> Page:
    """The page of the chapter."""
    book, nb = people_index.book, people_index.book.notebook
    context = PageContext(book, HANDS)
    living = [*nb.living]
    lede = joined(_lede(people_index, context))
    paths = [*{p.at.path for p in nb.people.values()}, *(e.at.path for e in nb.sign_offs[:1])]
    html = pressed(
        "hands.html.j2", context,
        lede=lede,
        levels=LEVEL_KEY,
        unsound=unsound(book, paths),
        signed=bool(people_index.standing),
        tables=[*_tables(people_index, context, living)] if nb.skills else [],
        losses=[*_losses(people_index, context)],
        reasons=[*reasons_given(people_index, context, _held_by(people_index, living))],
        more=say("{} tells all of it, and {} how it is put right.",
                 linked("If one of us left", Ref("chapter", WITHOUT)),
                 linked("what to learn next", Ref("chapter", LESSONS)))
        if nb.skills and living
        else "",
        rests=any(one.rests and one.person in nb.living for one in book.analysis.holders.held.values()),
        seals=[*last_seals(book.analysis)],
        seal_names=NAMES,
        people=[_person(context, id_, nb.people[id_]) for id_ in living],
        gone=[_person(context, id_, p) for id_, p in nb.people.items() if p.left is not None],
        skills=[_skill(people_index, context, id_) for id_ in people_index.skills],
        lineage=say("{} shows how it was handed on.", linked("Who taught whom", Ref("chapter", LINEAGE)))
        if people_index.standing
        else "",
    )
    parts = (Part("people", "The people"), Part("skills", "The skills"))
    return Page(HANDS, "The hands", html, lede.plain, parts, "skills/people.yml")


def _lede(people_index: PeopleIndex, context: PageContext) -> Iterator[Prose]:
    nb = people_index.book.notebook
    people, skills = len(nb.living), len(nb.skills)
    if not people and not skills:
        yield say("Nobody is written down yet, and no skill. People stand in `skills/people.yml`.")
        return
    yield capital(f"{_many(people, 'person', 'people')}, {_many(skills, 'skill', 'skills')}.")
    if not people_index.standing and skills:
        yield prose("Nothing is signed yet in the book of sign-offs.")
    for person, alone in [*people_index.only_teacher.items()][:1]:
        what = listed(_small(context, alone)) if len(alone) <= _NAMED else f"{number(len(alone))} of the skills"
        yield say("If {} stopped tomorrow, {} would have nobody left to teach {}.",
            people_index.short[person], what, "it" if len(alone) == 1 else "them"
        )


def _many(count: int, one: str, many: str) -> str:
    return f"{number(count)} {one if count == 1 else many}"


def _small(context: PageContext, skills: Iterable[str]) -> list[Prose]:
    return [lowered(context.title("skill", skill)) for skill in skills]


def _tables(
    people_index: PeopleIndex, context: PageContext, living: list[str]
) -> Iterator[tuple[str, list[str], list[Row]]]:
    day = dated_day(people_index.today)
    groups = [living[i : i + _ABREAST] for i in range(0, len(living), _ABREAST)]
    for group in groups:
        names = [people_index.short[id_] for id_ in group]
        who = "" if len(groups) == 1 else f" {names[0]} to {names[-1]},"
        rows = [(context.pair("skill", skill), [_cell(people_index, context, person, skill) for person in group])
                for skill in people_index.skills]
        yield f"Who can do what,{who} {day}", names, rows


def _cell(people_index: PeopleIndex, context: PageContext, person: str, skill: str) -> Cell:
    held = people_index.held(person, skill)
    if held is None:
        return "", None, False, ""
    return held.level, context.href("skill", skill, entry_anchor(held.entry)), held.rests, star(held.entry)


def _held_by(people_index: PeopleIndex, living: list[str]) -> Iterator[SignOff]:
    """The entries that give what stands in the tables."""
    for person in living:
        for skill in people_index.skills:
            held = people_index.held(person, skill)
            if held is not None:
                yield held.entry


def _losses(people_index: PeopleIndex, context: PageContext) -> Iterator[Prose]:
    for person, alone in people_index.only_teacher.items():
        yield say("**{}** alone teaches {}.",
            context.link("person", person),
            listed(context.link("skill", s, lowered(context.title("skill", s))) for s in alone),
        )
    if people_index.untaught:
        named = listed(context.link("skill", s, lowered(context.title("skill", s))) for s in people_index.untaught)
        yield say("**Nobody here** may teach {}.", named)


def _person(context: PageContext, id_: str, person: Person) -> tuple[Prose, Prose]:
    """Name; role and time in the shop."""
    rest = joined((context.words(person.role), stay(context, person)), ", ")
    return context.link("person", id_), capital(sentence(rest))


def stay(context: PageContext, person: Person) -> str:
    """How long somebody is or was in the shop."""
    joined, left = context.date(person.joined), context.date(person.left)
    if left:
        return f"here from {joined} to {left}" if joined else f"here until {left}"
    return f"here since {joined}" if joined else ""


def _skill(people_index: PeopleIndex, context: PageContext, id_: str) -> tuple[Prose, Prose]:
    """Its name; what it is for."""
    skill = people_index.book.notebook.skills[id_]
    why = joined(context.words(reason) for reason in skill.because)
    return context.link("skill", id_), sentence(why)
