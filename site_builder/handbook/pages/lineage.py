"""Who taught whom: the line of sign-offs from the first teacher to the youngest learner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.drawings import Person as Drawn
from site_builder.handbook.drawings import Taught, lineage
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.hands_index import stay
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.reasons_given import reasons_given
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, LINEAGE, Page
from site_builder.handbook.trusted import trusted
from site_builder.views.prose import Prose, Ref, linked, listed, lowered, lowered_text, prose, say

_ON_A_CURVE = 3
"""So many skills are written on a curve; of more, how many they are. All stand in the words below."""


@dataclass(frozen=True, slots=True)
class _Pictures:
    wide: Markup
    tall: Markup


_NOTHING = _Pictures(Markup(""), Markup(""))

_DRAWN = 12
"""Of more people than this the line of one skill is told in words alone."""


@dataclass(frozen=True, slots=True)
class SkillLine:
    """Who taught whom in one skill; the drawing is empty where it would be no help."""

    wide: Markup
    tall: Markup
    words: list[Prose]


def skill_line(people_index: PeopleIndex, context: PageContext, skill: str) -> SkillLine | None:
    """The line of one skill, from the first teacher in the book; None while nobody was signed for it."""
    known = people_index.book.notebook.people
    pupils = {
        teacher: [learner for learner, skills in signed if skill in skills and learner in known]
        for teacher, signed in people_index.has_taught.items() if teacher in known
    }
    pupils = {teacher: learners for teacher, learners in pupils.items() if learners}
    if not pupils:
        return None
    words = [
        say("**{}** taught {}.", context.person(teacher), listed(context.person(one) for one in learners))
        for teacher, learners in pupils.items()
    ]
    within = {*pupils, *(one for learners in pupils.values() for one in learners)}
    # what one teacher handed on to all is a list, and no drawing says it better
    if len(pupils) < 2 or len(within) > _DRAWN:
        return SkillLine(Markup(""), Markup(""), words)
    people = [
        Drawn(id_, context.title("person", id_), stay(context, person), context.href("person", id_) or "")
        for id_, person in known.items() if id_ in within
    ]
    taught = [Taught(teacher, learner) for teacher, learners in pupils.items() for learner in learners]
    drawn = lineage(people, taught, f"Who taught whom: {context.title('skill', skill)}")
    return SkillLine(trusted(drawn.wide), trusted(drawn.tall), words)


def lineage_sheet(people_index: PeopleIndex) -> Page:
    """The page of the lineage."""
    book, nb = people_index.book, people_index.book.notebook
    context = PageContext(book, LINEAGE)
    lede = _lede(people_index, context)
    pictures = _NOTHING
    if people_index.has_taught:
        drawn = lineage([*_people(people_index, context)], [*_taught(people_index, context)])
        pictures = _Pictures(trusted(drawn.wide), trusted(drawn.tall))  # the drawing writes its own escaped markup
    book_path = nb.sign_offs[0].at.path if nb.sign_offs else "skills/people.yml"
    html = pressed(
        "lineage.html.j2", context,
        kicker=say("{}", linked("The hands", Ref("chapter", HANDS))),
        lede=lede,
        drawn=pictures,
        words=[*_words(people_index, context)],
        reasons=[*reasons_given(people_index, context, people_index.standing, starred=False)],
        unsound=unsound(book, (book_path,)),
    )
    return Page(LINEAGE, "Who taught whom", html, lede.plain, written_in=book_path)


def _lede(people_index: PeopleIndex, context: PageContext) -> Prose:
    if not people_index.has_taught:
        return prose("No lesson is written down yet. The line begins with the first sign-off.")
    begin = [
        context.person(id_) for id_, p in people_index.book.notebook.people.items() if p.founding in ("yes", "true")
    ]
    told = prose("Every hand in this shop was led by another, and this is what the book of sign-offs knows of it.")
    if not begin:
        return told
    return say("{} The chain begins with {}, whose mastery we take as given.", told, listed(begin))


def _people(people_index: PeopleIndex, context: PageContext) -> Iterator[Drawn]:
    """Everybody in the lineage, and everybody who is here."""
    nb = people_index.book.notebook
    pupils = {other for signed in people_index.has_taught.values() for other, _ in signed}
    for id_, person in nb.people.items():
        if person.left is None or id_ in pupils or id_ in people_index.has_taught:
            yield Drawn(id_, context.title("person", id_), stay(context, person), context.href("person", id_) or "")


def _taught(people_index: PeopleIndex, context: PageContext) -> Iterator[Taught]:
    known = people_index.book.notebook.people
    for teacher, signed in people_index.has_taught.items():
        for learner, skills in signed:
            if teacher in known and learner in known:
                titles = [lowered_text(context.title("skill", skill)) for skill in skills]
                words = ", ".join(titles) if len(titles) <= _ON_A_CURVE else f"{len(titles)} skills"
                yield Taught(teacher, learner, words)


def _words(people_index: PeopleIndex, context: PageContext) -> Iterator[Markup]:
    """The first teacher in the book comes first, with a line for each pupil."""
    for teacher, signed in people_index.has_taught.items():
        pupils = [
            Markup("<li>{}</li>").format(context.said(say("{}: {}.", context.person(learner), listed(
                lowered(context.title("skill", skill)) for skill in skills))))
            for learner, skills in signed
        ]
        yield Markup("{}<ul>{}</ul>").format(context.said(say("**{}** taught", context.person(teacher))),
                                             Markup("").join(pupils))
