"""Still unwritten: the questions for the master as a sheet to sit down with, by person and by work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from site_builder.checks.interview import Question, Sitting, interview
from site_builder.handbook.book import UNWRITTEN, Book, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.in_words import capital, listed, number
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pen import Pen
from site_builder.handbook.theme import token
from site_builder.notebook.finding import At
from site_builder.notebook.index import Index
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.references import ANY

_NAMED = 3
"""So many people are named at the top."""
_LINES = 5
_LINES_TO_SETTLE = 3
"""Ruled lines for an answer; fewer where two answers are there already and one is to be chosen."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it stands on the sheet."""

    id: str
    number: int
    text: Markup
    why: Markup
    where: tuple[str, str | None]
    lines: int
    said: tuple[tuple[Markup, Markup], ...]


@dataclass(frozen=True, slots=True)
class Sat:
    """What to ask about one thing."""

    id: str
    title: Markup
    questions: tuple[Asked, ...]
    probes: tuple[Markup, ...]


def unwritten_sheets(book: Book) -> Iterator[Sheet]:
    """One page for all questions: the links from every `not yet told` lead there."""
    sittings = interview(book.survey, book.findings)
    sheet = _Sheet(book, sittings)
    groups = [*sheet.groups(sittings)]
    total = sheet.count
    lede = _lede(total, [sheet.pen.title("person", id_) for id_ in sheet.people])
    contents = [
        (who, [(s.title, f"#{s.id}", _questions(len(s.questions))) for s in sat]) for _, who, sat in groups
    ]
    html = pressed("unwritten.html.j2", lede=lede, groups=groups, contents=contents if total > 1 else [])
    parts = tuple(Part(q.id, str(q.text.striptags()), str(q.why.striptags()))
                  for _, _, sat in groups for s in sat for q in s.questions)
    yield Sheet(UNWRITTEN, "Still unwritten", html, str(lede.striptags()), parts)


def _questions(count: int) -> str:
    return f"{number(count)} question{'' if count == 1 else 's'}"


def _lede(total: int, people: Sequence[str]) -> Markup:
    if not total:
        return Markup("Nothing that we know of. The day somebody asks at the bench and no page answers, write the "
                      "question down under <code>questions</code>, and it will stand here.")
    things = capital(f"{number(total)} thing{'' if total == 1 else 's'}")
    return Markup("{} that only {} can tell. Print this sheet, sit down together with a pot of tea, and write down "
                  "what is said in the words in which it is said.").format(things, _who(people))


def _who(people: Sequence[str]) -> Markup:
    if not people:
        return Markup("somebody who was there")
    return listed(people, "or") if len(people) <= _NAMED else Markup("the people named below")


class _Sheet:
    """Writes the sheet: numbers run through it, and no two questions share an anchor."""

    def __init__(self, book: Book, sittings: Sequence[Sitting]) -> None:
        self.book = book
        asked = frozenset(question.at for sitting in sittings for question in sitting.questions)
        self._steps = _steps_at(book.survey.index, asked)
        self.pen = Pen(book, UNWRITTEN)
        self.count = 0
        self.people: dict[str, None] = {}
        self._taken: set[str] = set()

    def groups(self, sittings: Sequence[Sitting]) -> Iterator[tuple[str, Markup, list[Sat]]]:
        """(anchor, who, sittings) for each person or group of people to ask."""
        for people, group in groupby(sittings, key=lambda sitting: sitting.who):
            self.people.update(dict.fromkeys(people))
            who = listed((self.pen.title("person", id_) for id_ in people), "or") or Markup("Whoever knows")
            yield self._id(f"ask-{token(' '.join(people))}"), who, [self._sat(sitting) for sitting in group]

    def _sat(self, sitting: Sitting) -> Sat:
        return Sat(
            self._id(f"sitting-{token(sitting.about)}"), self.pen.words(sitting.title, glossary=False),
            tuple(self._asked(question) for question in sitting.questions),
            tuple(self.pen.words(probe, glossary=False) for probe in sitting.probes),
        )

    def _asked(self, question: Question) -> Asked:
        self.count += 1
        said = tuple((self.pen.person(who), self.pen.words(what, glossary=False)) for who, what in question.said)
        return Asked(
            self._id(f"q-{token(question.at.path)}-{question.at.line}"), self.count,
            self.pen.words(question.text, glossary=False), self.pen.words(question.why, glossary=False),
            self._where(question), _LINES_TO_SETTLE if said else _LINES, said,
        )

    def _where(self, question: Question) -> tuple[str, str | None]:
        """The page that waits for the answer, down to the step."""
        target = self.book.survey.references.find(question.about, ANY)
        if target is None:
            return "", None
        title, href = self.pen.pair(target.kind, target.id)
        procedure = self.book.notebook.procedures.get(question.about)
        step = self._steps.get(question.at)
        if procedure is None or step is None:
            return title, href
        return (f"{title}, {self.book.step_name(procedure, step)}",
                self.pen.href("procedure", question.about, self.book.anchor(step)))

    def _id(self, wanted: str) -> str:
        name, n = wanted, 2
        while name in self._taken:
            name, n = f"{wanted}-{n}", n + 1
        self._taken.add(name)
        return name


def _steps_at(index: Index, wanted: frozenset[At]) -> Mapping[At, Step]:
    """The step to which each of these places of the notebook belongs, where it is within one."""
    found: dict[At, Step] = {}
    for places in index.places.values():
        for place in places:
            if place.step is not None and place.at in wanted:
                found.setdefault(place.at, place.step)
    left = wanted - found.keys()
    lines = {(at.path, at.line) for at in left}
    texts = [(spot.text, spot.place.step) for spot in (*index.plain, *index.texts)]
    texts += [(leaf.text, place.step) for leaf, place, _ in index.values]
    texts += [(leaf.text, place.step) for leaf, place, _ in index.leaves]
    for text, step in texts:
        if step is not None and (text.path, text.line) in lines and text.at in left:
            found.setdefault(text.at, step)
    return found
