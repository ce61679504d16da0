"""Who taught whom, said in words: one entry a person, their pupils named with what they learned."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from site_builder.handbook.drawings.graph import Person, Taught


@dataclass(frozen=True)
class Lessons:
    """A person, what they taught to whom, and the sentence that says so (plain text, no name)."""

    person: Person
    taught: tuple[tuple[Person, str], ...]
    sentence: str


def lessons_of(taught: Sequence[Taught]) -> tuple[Taught, ...]:
    """One lesson for each pair, words joined; nobody is drawn as their own teacher."""
    words: dict[tuple[str, str], list[str]] = {}
    for one in taught:
        if one.teacher != one.learner:
            held = words.setdefault((one.teacher, one.learner), [])
            if one.words and one.words not in held:
                held.append(one.words)
    return tuple(Taught(teacher, learner, ", ".join(held)) for (teacher, learner), held in words.items())


def lessons_in_words(people: Sequence[Person], lessons: Sequence[Taught]) -> tuple[Lessons, ...]:
    """Everybody who taught, and everybody of whom no lesson is told; pupils stand with their teachers."""
    named = {person.id: person for person in people}
    learned = {lesson.learner for lesson in lessons}
    given: dict[str, list[Taught]] = defaultdict(list)
    for lesson in lessons:
        given[lesson.teacher].append(lesson)
    told = []
    for person in people:
        pupils = tuple((named[one.learner], one.words) for one in given[person.id])
        if pupils:
            told.append(Lessons(person, pupils, f"taught {'; '.join(_pupil(*pupil) for pupil in pupils)}."))
        elif person.id not in learned:
            told.append(Lessons(person, (), "has no lesson written down, given or taken."))
    return tuple(told)


def words_html(told: Sequence[Lessons]) -> str:
    """The sentences as a plain list; people with a page are linked."""
    lines = []
    for one in told:
        years = f" ({escape(one.person.years, quote=False)})" if one.person.years else ""
        pupils = "; ".join(
            _linked(pupil) + (f" {escape(words, quote=False)}" if words else "") for pupil, words in one.taught
        )
        rest = f"taught {pupils}." if pupils else escape(one.sentence, quote=False)
        lines.append(f"<li><b>{_linked(one.person)}</b>{years} {rest}</li>")
    return '<ul class="bl-plain">\n' + "\n".join(lines) + "\n</ul>\n"


def _pupil(pupil: Person, words: str) -> str:
    return f"{pupil.name} {words}" if words else pupil.name


def _linked(person: Person) -> str:
    name = escape(person.name, quote=False)
    return f'<a href="{escape(person.href)}">{name}</a>' if person.href else name
