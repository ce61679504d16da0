"""The page of a person: what they do, what they still have to show, who taught them, their own book."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.book import HANDS, LINEAGE, Sheet
from site_builder.handbook.filled import filled
from site_builder.handbook.finder import Part
from site_builder.handbook.pages import own_book, too_young
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.hands_index import stay
from site_builder.handbook.pages.in_words import capital, listed, lowered, number, sentence
from site_builder.handbook.pages.learn_next import could_learn
from site_builder.handbook.pages.papers_told import papers_rows
from site_builder.handbook.pages.practice_charts import SKILLS, practice_charts
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.reasons_given import reasons_given, star
from site_builder.handbook.pages.roll import OwnBook, Roll, entry_anchor
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen, dated_day
from site_builder.mastery.holders import LEVELS, Held
from site_builder.notebook.model.people import Person

_ALONE = LEVELS.index("alone") + 1
_SOON = 183
"""Days: who must practise within half a year should know it."""
_NOTHING = OwnBook((), {})
Signed = tuple[tuple[str, tuple[str, ...]], ...]


def person_sheet(roll: Roll, id_: str) -> Sheet:
    """The page of one person."""
    book, person = roll.book, roll.book.notebook.people[id_]
    src_uri = book.addresses["person", id_]
    pen = Pen(book, src_uri)
    title, here = pen.title("person", id_), person.left is None
    lede, own = _lede(pen, person), roll.own_books.get(id_, _NOTHING)
    held = book.survey.holders.of_person(id_)
    html = pressed(
        "person.html.j2",
        kicker=Markup('<a href="{}">The hands</a> · People').format(pen.to(HANDS)), title=title, lede=lede,
        figures=figure_views(pen, "person", id_), unsound=unsound(book, (person.at.path,)), note=pen.words(person.note),
        gone="" if here else f"{roll.short[id_]} is not in the shop any more, and signs for nobody.",
        founding=_founding(roll, id_, person),
        does_title=f"What {roll.short[id_]} {'does now' if here else 'was signed for'}",
        does=[*_does(pen, held)], reasons=[*reasons_given(roll, pen, (one.entry for one in held), named=False)],
        resting=[*_resting(roll, pen, held)] if here else [],
        could_learn=[*could_learn(roll, pen, id_, person)] if here else [],
        charts=[*practice_charts(roll, pen, id_)],
        cut=f"Drawn are the skills on the way and those practised last, {number(SKILLS)} at most."
        if len(roll.practised(id_)) > SKILLS else "",
        to_show=[*_to_show(roll, pen, id_, held)] if here else [],
        taught_by=_signed(pen, roll.taught_by.get(id_, ())), has_taught=_signed(pen, roll.has_taught.get(id_, ())),
        lineage=Markup('<a href="{}">Who taught whom</a> shows the whole line.').format(pen.to(LINEAGE)),
        not_before=[*_not_before(roll, pen, person)] if here else [], papers=[*papers_rows(roll, pen, id_, person)],
        own_title=f"In {roll.short[id_]}’s own book", own=own_book.lines(roll, pen, own), counted=own_book.counted(own),
    )
    parts = (Part("does", f"{title}: what {roll.short[id_]} does",
                  ", ".join(f"{pen.title('skill', one.skill)} {one.level}" for one in held)),)
    return Sheet(src_uri, title, html, str(lede.striptags()), parts, person.at.path)


def _lede(pen: Pen, person: Person) -> Markup:
    """Role, time in the shop, year of birth, working time."""
    first = Markup(", ").join(part for part in (pen.words(person.role), stay(pen, person)) if part)
    told = [capital(sentence(first))] if first else []
    if person.born is not None:
        told.append(Markup("Born in {}.").format(person.born.value.first.year))
    if person.hours is not None and person.left is None:
        told.append(Markup("Works {}.").format(pen.value(person.hours)[0].replace("/", " a ")))
    return Markup(" ").join(told)


def _founding(roll: Roll, id_: str, person: Person) -> str:
    if person.founding not in ("yes", "true"):
        return ""
    return f"The chain of sign-offs begins with {roll.short[id_]}: this mastery is taken as given."


def _does(pen: Pen, held: tuple[Held, ...]) -> Iterator[tuple[str, Markup]]:
    """The skills at each level, each leading to the entry that gave it."""
    for level in reversed(LEVELS):
        links = [
            _held(pen, one) for one in held if one.level == level
        ]
        if links:
            yield level, capital(listed(links))


def _held(pen: Pen, one: Held) -> Markup:
    """A skill, leading to the entry that gave it, and whether it rests."""
    skill = pen.link("skill", one.skill, lowered(pen.title("skill", one.skill)), entry_anchor(one.entry))
    link = skill + star(one.entry)
    if one.rests_since is None:
        return link
    return filled("{} (<b>rests</b> since {})", link, dated_day(one.rests_since))


def _resting(roll: Roll, pen: Pen, held: tuple[Held, ...]) -> Iterator[Markup]:
    """What rests for want of a paper or of practice, and what will within the next half year without practice."""
    for one in held:
        if one.paper is not None and one.paper.last is not None:
            yield filled("<b>Rests since {}:</b> {}. It holds again when “{}” is renewed.", dated_day(one.paper.last),
                         pen.link("skill", one.skill, lowered(pen.title("skill", one.skill))),
                         pen.words(one.paper.paper.paper))
    found = [(until, one) for one in held if (until := roll.fresh_until(one)) is not None]
    for until, one in sorted(found, key=lambda pair: (pair[0], pair[1].skill)):
        skill = pen.link("skill", one.skill, lowered(pen.title("skill", one.skill)), "fresh")
        if until < roll.today:
            yield filled("<b>Rests since {}:</b> {}. It holds again with the next practice that is entered.",
                         dated_day(until), skill)
        elif (until - roll.today).days <= _SOON:
            yield filled("<b>By {}:</b> {}.", dated_day(until), skill)


def _to_show(roll: Roll, pen: Pen, id_: str, held: tuple[Held, ...]) -> Iterator[list[Markup]]:
    """For each skill on the way: how far, what is signed, what is missing, and whom to ask."""
    for one in held:
        skill = roll.book.notebook.skills.get(one.skill)
        if skill is None or one.rank >= _ALONE:
            continue
        missing = [show for show in skill.checklist
                   if show.id is None or (id_, one.skill, str(show.id)) not in roll.shown]
        signed = len(skill.checklist) - len(missing)
        to_show = Markup("<ul>{}</ul>").format(
            Markup("").join(Markup("<li>{}</li>").format(pen.words(show.show)) for show in missing))
        teachers = [pen.link("person", who) for who in roll.teachers[one.skill] if who != id_]
        yield [
            Markup("{}{}").format(pen.link("skill", one.skill, None, f"shown-{id_}" if signed else "checklist"),
                                  _ways(pen, id_, one.skill)), Markup(one.level),
            Markup("{} of {}").format(signed, len(skill.checklist)) if skill.checklist else Markup("no list yet"),
            to_show if missing else Markup("only the proof"), listed(teachers, "or") or Markup("nobody here may sign"),
        ]


def _ways(pen: Pen, id_: str, skill: str) -> Markup:
    """Where the skill is studied, and the list to be signed on paper."""
    named = (("Study it", pen.href("study", skill)), ("Print the list", pen.href("checklist", skill, f"for-{id_}")))
    return Markup("").join(Markup('<span class="bl-used bl-noprint"><a href="{}">{}</a></span>').format(href, words)
                           for words, href in named if href is not None)


def _signed(pen: Pen, signed: Signed) -> list[Markup]:
    return [
        Markup("<b>{}</b>: {}.").format(
            pen.person(other), listed(pen.link("skill", s, lowered(pen.title("skill", s))) for s in skills))
        for other, skills in signed
    ]


def _not_before(roll: Roll, pen: Pen, person: Person) -> Iterator[Markup]:
    if person.born is None and too_young.any_age(roll):
        yield Markup("It is not written when {} was born. Ask before anything that has a least age.").format(
            pen.plain(person.name))
    yield from too_young.in_words(pen, too_young.not_yet(roll, person))
