"""The hands: who can do what, what would be lost with whom, and the way to every person and skill."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.book import HANDS, LESSONS, LINEAGE, WITHOUT, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.in_words import capital, listed, lowered, number, sentence
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.reasons_given import reasons_given, star
from site_builder.handbook.pages.roll import Roll, entry_anchor
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen, dated_day
from site_builder.handbook.seals import NAMES, last_seals
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.records import SignOff

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


def hands_sheet(roll: Roll) -> Sheet:
    """The page of the chapter."""
    book, nb = roll.book, roll.book.notebook
    pen = Pen(book, HANDS)
    living = [*nb.living]
    lede = Markup(" ").join(_lede(roll, pen))
    paths = [*{p.at.path for p in nb.people.values()}, *(e.at.path for e in nb.sign_offs[:1])]
    html = pressed(
        "hands.html.j2", lede=lede, levels=LEVEL_KEY, unsound=unsound(book, paths), signed=bool(roll.standing),
        tables=[*_tables(roll, pen, living)] if nb.skills else [],
        losses=[*_losses(roll, pen)], reasons=[*reasons_given(roll, pen, _held_by(roll, living))],
        more=Markup('<a href="{}">If one of us left</a> tells all of it, and <a href="{}">what to learn next</a> how '
                    "it is put right.").format(pen.to(WITHOUT), pen.to(LESSONS)) if nb.skills and living else "",
        rests=any(one.rests and one.person in nb.living for one in book.survey.holders.held.values()),
        seals=[*last_seals(book.survey)], seal_names=NAMES,
        people=[_person(pen, id_, nb.people[id_]) for id_ in living],
        gone=[_person(pen, id_, p) for id_, p in nb.people.items() if p.left is not None],
        skills=[_skill(roll, pen, id_) for id_ in roll.skills],
        lineage=Markup('<a href="{}">Who taught whom</a> shows how it was handed on.').format(pen.to(LINEAGE))
        if roll.standing else "",
    )
    parts = (Part("people", "The people"), Part("skills", "The skills"))
    return Sheet(HANDS, "The hands", html, str(lede.striptags()), parts, "skills/people.yml")


def _lede(roll: Roll, pen: Pen) -> Iterator[Markup]:
    nb = roll.book.notebook
    people, skills = len(nb.living), len(nb.skills)
    if not people and not skills:
        yield Markup("Nobody is written down yet, and no skill. People stand in <code>skills/people.yml</code>.")
        return
    yield capital(f"{_many(people, 'person', 'people')}, {_many(skills, 'skill', 'skills')}.")
    if not roll.standing and skills:
        yield Markup("Nothing is signed yet in the book of sign-offs.")
    for person, alone in [*roll.only_teacher.items()][:1]:
        what = listed(_small(pen, alone)) if len(alone) <= _NAMED else f"{number(len(alone))} of the skills"
        yield Markup("If {} stopped tomorrow, {} would have nobody left to teach {}.").format(
            roll.short[person], what, "it" if len(alone) == 1 else "them"
        )


def _many(count: int, one: str, many: str) -> str:
    return f"{number(count)} {one if count == 1 else many}"


def _small(pen: Pen, skills: Iterable[str]) -> list[Markup]:
    return [lowered(pen.title("skill", skill)) for skill in skills]


def _tables(roll: Roll, pen: Pen, living: list[str]) -> Iterator[tuple[str, list[str], list[Row]]]:
    day = dated_day(roll.today)
    groups = [living[i : i + _ABREAST] for i in range(0, len(living), _ABREAST)]
    for group in groups:
        names = [roll.short[id_] for id_ in group]
        who = "" if len(groups) == 1 else f" {names[0]} to {names[-1]},"
        rows = [(pen.pair("skill", skill), [_cell(roll, pen, person, skill) for person in group])
                for skill in roll.skills]
        yield f"Who can do what,{who} {day}", names, rows


def _cell(roll: Roll, pen: Pen, person: str, skill: str) -> Cell:
    held = roll.held(person, skill)
    if held is None:
        return "", None, False, ""
    return held.level, pen.href("skill", skill, entry_anchor(held.entry)), held.rests, star(held.entry)


def _held_by(roll: Roll, living: list[str]) -> Iterator[SignOff]:
    """The entries that give what stands in the tables."""
    for person in living:
        for skill in roll.skills:
            held = roll.held(person, skill)
            if held is not None:
                yield held.entry


def _losses(roll: Roll, pen: Pen) -> Iterator[Markup]:
    for person, alone in roll.only_teacher.items():
        yield Markup("<b>{}</b> alone teaches {}.").format(
            pen.link("person", person), listed(pen.link("skill", s, lowered(pen.title("skill", s))) for s in alone)
        )
    if roll.untaught:
        named = listed(pen.link("skill", s, lowered(pen.title("skill", s))) for s in roll.untaught)
        yield Markup("<b>Nobody here</b> may teach {}.").format(named)


def _person(pen: Pen, id_: str, person: Person) -> tuple[Markup, Markup]:
    """Name; role and time in the shop."""
    told = [pen.words(person.role), stay(pen, person)]
    link = pen.link("person", id_)
    rest = Markup(", ").join(part for part in told if part)
    return link, capital(sentence(rest)) if rest else Markup("")


def stay(pen: Pen, person: Person) -> str:
    """How long somebody is or was in the shop."""
    joined, left = pen.date(person.joined), pen.date(person.left)
    if left:
        return f"here from {joined} to {left}" if joined else f"here until {left}"
    return f"here since {joined}" if joined else ""


def _skill(roll: Roll, pen: Pen, id_: str) -> tuple[Markup, Markup]:
    """Its name; what it is for."""
    skill = roll.book.notebook.skills[id_]
    why = Markup(" ").join(pen.words(reason) for reason in skill.because)
    return pen.link("skill", id_), sentence(why)
