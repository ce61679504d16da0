"""The roll of the shop: who is called what, whose entries stand where. Worked out once for all pages."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from site_builder.checks.papers import RunningOut, papers_of
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.least_ages import LeastAge, least_ages
from site_builder.handbook.site import Site
from site_builder.notebook.model.records import Incident, Record, SignOff
from site_builder.skills.ages import Ages
from site_builder.skills.evidence import Evidence
from site_builder.skills.holders import Held
from site_builder.skills.initials import first_name
from site_builder.skills.known import knowledge_of
from site_builder.skills.loss import Knowledge
from site_builder.skills.progress import Progress, progress
from site_builder.skills.teaching import Teaching, teaching_of
from site_builder.views.checklist import shown_items
from site_builder.views.free_text import plain
from site_builder.views.prose import Prose

NEWEST = 12
"""So many entries of a person are shown; besides them those on which a sign-off or a change rests."""

_CITED = re.compile(r"(sign-off|practice|trial|measurement|incident) (\d+)")
_EARLIEST = date.min
_Ends = Callable[[SignOff], tuple[str, str]]


@dataclass(frozen=True, slots=True)
class OwnBook:
    """The entries of one person that are shown, newest first, and how many there are of each book."""

    shown: tuple[Record, ...]
    counts: Mapping[str, int]

    @property
    def total(self) -> int:
        return sum(self.counts.values())


class PeopleIndex:
    """People and the books, as the pages of the hands ask for them."""

    def __init__(self, site: Site) -> None:
        self.book = site
        self.today = site.analysis.today
        ledger = site.analysis.holders.ledger
        self.standing = ledger.standing
        self.taken_back = ledger.gone
        self.shown = shown_items(ledger.standing)
        self._progress: dict[tuple[str, str], Progress] = {}

    # ------------------------------------------------------------------ people

    @cached_property
    def short(self) -> Mapping[str, str]:
        """The first word of each name, or the whole name where two people share it."""
        full = {id_: plain(str(person.name)) for id_, person in self.book.notebook.people.items()}
        firsts = Counter(first_name(name) for name in full.values() if name)
        return {id_: first_name(name) if name and firsts[first_name(name)] == 1 else name or id_
                for id_, name in full.items()}

    @cached_property
    def founders(self) -> tuple[str, ...]:
        """The living people with whom the chain of sign-offs begins."""
        return tuple(id_ for id_, p in self.book.notebook.living.items() if p.founding in ("yes", "true"))

    @cached_property
    def least_ages(self) -> tuple[LeastAge, ...]:
        """Every line of age that the shop draws."""
        return tuple(least_ages(self.book.notebook, self.ages))

    @cached_property
    def knowledge(self) -> Knowledge:
        """Who can do what alone and may teach it today, and the work that asks for it."""
        analysis = self.book.analysis
        return knowledge_of(analysis.notebook, analysis.route, analysis.holders)

    @cached_property
    def teachers(self) -> Mapping[str, tuple[str, ...]]:
        """The living people who may teach each skill today."""
        teachers = self.knowledge.teachers
        return {skill: self.in_order(teachers[skill]) for skill in self.skills if skill in teachers}

    @cached_property
    def signers(self) -> Mapping[str, tuple[str, ...]]:
        """The living people who may sign for each skill today: who teaches it, and the founders."""
        holders = self.book.analysis.holders
        return {skill: self.in_order(holders.signers(skill)) for skill in self.skills}

    @cached_property
    def skills(self) -> tuple[str, ...]:
        """All skills by the names people read, not by those of the files."""
        titles = {id_: plain(str(skill.title or id_)) for id_, skill in self.book.notebook.skills.items()}
        return tuple(sorted(titles, key=lambda id_: titles[id_].casefold()))

    def in_order(self, people: Collection[str]) -> tuple[str, ...]:
        """People in the order in which they are written down."""
        return tuple(id_ for id_ in self.book.notebook.people if id_ in people)

    @cached_property
    def only_teacher(self) -> Mapping[str, tuple[str, ...]]:
        """Of each living person who alone teaches something, what: the most first."""
        found: dict[str, list[str]] = defaultdict(list)
        for skill, people in self.teachers.items():
            if len(people) == 1:
                found[people[0]].append(skill)
        ordered = sorted(found.items(), key=lambda pair: -len(pair[1]))
        return {person: tuple(skills) for person, skills in ordered}

    @cached_property
    def untaught(self) -> tuple[str, ...]:
        """Skills that somebody was once signed for, and that nobody here may teach now."""
        signed = {str(entry.skill) for entry in self.standing}
        return tuple(skill for skill, people in self.teachers.items() if not people and skill in signed)

    @cached_property
    def ages(self) -> Ages:
        """The least ages of all skills."""
        return Ages(self.book.analysis.references)

    @cached_property
    def papers(self) -> Mapping[tuple[str, str], RunningOut]:
        """(person, name of the paper in small letters) to the last day of the newest one."""
        return {(one.person, one.paper.lower()): one for one in papers_of(self.book.analysis)}

    # ------------------------------------------------------------------ entries

    @cached_property
    def of_skill(self) -> Mapping[str, tuple[SignOff, ...]]:
        """Every sign-off of a skill in the order of the book, those taken back too."""
        found: dict[str, list[SignOff]] = defaultdict(list)
        for entry in self.book.notebook.sign_offs:
            _, skill = self.meant(entry)
            if skill is not None:
                found[skill].append(entry)
        return {skill: tuple(entries) for skill, entries in found.items()}

    def meant(self, entry: SignOff) -> tuple[str | None, str | None]:
        """(learner, skill) of an entry; one that takes another back need not name them again."""
        number = entry.withdraws or entry.corrects
        earlier = self._by_number.get(str(number)) if number is not None else None
        learner = entry.learner or (earlier.learner if earlier is not None else None)
        skill = entry.skill or (earlier.skill if earlier is not None else None)
        return (None if learner is None else str(learner)), (None if skill is None else str(skill))

    @cached_property
    def _by_number(self) -> Mapping[str, SignOff]:
        return {str(entry.number): entry for entry in self.book.notebook.sign_offs}

    @cached_property
    def taught_by(self) -> Mapping[str, tuple[tuple[str, tuple[str, ...]], ...]]:
        """Of each learner, who signed for them and for which skills."""
        return self._signed(lambda entry: (str(entry.learner), str(entry.who)))

    @cached_property
    def has_taught(self) -> Mapping[str, tuple[tuple[str, tuple[str, ...]], ...]]:
        """Of each signer, whom they signed for and for which skills."""
        return self._signed(lambda entry: (str(entry.who), str(entry.learner)))

    def _signed(self, ends: _Ends) -> Mapping[str, tuple[tuple[str, tuple[str, ...]], ...]]:
        found: dict[str, dict[str, dict[str, None]]] = defaultdict(lambda: defaultdict(dict))
        for entry in self.standing:
            if entry.who is not None and entry.learner is not None and entry.skill is not None:
                one, other = ends(entry)
                found[one][other].setdefault(str(entry.skill))
        return {one: tuple((other, tuple(skills)) for other, skills in others.items())
                for one, others in found.items()}

    @cached_property
    def own_books(self) -> Mapping[str, OwnBook]:
        """What stands in the books of each person's own work."""
        found: dict[str, list[Record]] = defaultdict(list)
        for records in self.book.notebook.books.values():
            for record in records:
                for person in _concerned(record):
                    found[person].append(record)
        return {person: self._own(records) for person, records in found.items()}

    def _own(self, records: list[Record]) -> OwnBook:
        newest = sorted(records, key=_day, reverse=True)
        shown = [r for i, r in enumerate(newest) if i < NEWEST or (r.KIND, r.number) in self._cited]
        return OwnBook(tuple(shown), Counter(r.KIND for r in records))

    @cached_property
    def _cited(self) -> frozenset[tuple[str, int]]:
        nb = self.book.notebook
        texts = [text for entry in nb.sign_offs for text in entry.evidence]
        texts += [text for change in nb.changes.values() for text in change.evidence]
        return frozenset((m[1], int(m[2])) for text in texts for m in _CITED.finditer(str(text)))

    @cached_property
    def _places(self) -> Mapping[tuple[str, int], str]:
        """The person on whose page an entry is shown."""
        return {(r.KIND, r.number): person for person, own in self.own_books.items()
                if person in self.book.notebook.people for r in own.shown}

    def evidence(self, context: PageContext, text: str) -> Prose:
        """``practice 31`` as a link to the entry on the page of who wrote it; other words as written."""
        found = _CITED.fullmatch(str(text).strip())
        person = self._places.get((found[1], int(found[2]))) if found else None
        if found is None or person is None:
            return context.words(text)
        return context.link("person", person, found[0], f"{found[1]}-{found[2]}")

    # ------------------------------------------------------------------ what the books prove

    @property
    def evidence_book(self) -> Evidence:
        """The books, counted by learner and skill."""
        return self.book.analysis.law.evidence

    def progress(self, person: str, skill: str) -> Progress:
        """How far somebody has come by the pieces in the book."""
        found = self._progress.get((person, skill))
        if found is None:
            found = progress(self.evidence_book, self.book.notebook.skills[skill], person, self.today)
            self._progress[person, skill] = found
        return found

    @cached_property
    def teaching(self) -> Mapping[str, Teaching]:
        """The hours of teaching that each skill takes, and who says so."""
        return teaching_of(self.evidence_book, self.today)

    def practised(self, person: str) -> tuple[str, ...]:
        """The skills of which practice or trials of a person stand in the books, in the order of the notebook."""
        return self._practised.get(person, ())

    @cached_property
    def _practised(self) -> Mapping[str, tuple[str, ...]]:
        found: dict[str, set[str]] = defaultdict(set)
        for person, skill in self.evidence_book.begun:
            found[person].add(skill)
        place = {skill: i for i, skill in enumerate(self.book.notebook.skills)}
        return {person: tuple(sorted(skills & place.keys(), key=place.__getitem__)) for person, skills in found.items()}

    def fresh_until(self, held: Held) -> date | None:
        """The last day on which a sign-off is fresh; None where it never goes stale."""
        signed = held.entry.date.value.last if held.entry.date is not None else None
        fresh = self.book.analysis.holders.fresh
        return fresh.fresh_until(held.person, held.skill, held.level, signed, self.today)

    def held(self, person: str, skill: str) -> Held | None:
        """What a person holds in a skill."""
        return self.book.analysis.holders.level(person, skill)


def entry_anchor(record: Record) -> str:
    """``sign-off-51``: the place of an entry on a page."""
    return f"{record.KIND}-{record.number}"


def _concerned(record: Record) -> tuple[str, ...]:
    """Whose own book an entry belongs to."""
    if isinstance(record, SignOff):
        return (str(record.learner),) if record.learner is not None else ()
    people = [str(record.who)] if record.who is not None else []
    if isinstance(record, Incident):
        people += map(str, record.injured)
    return tuple(dict.fromkeys(people))


def _day(record: Record) -> tuple[date, int]:
    return (record.date.value.last if record.date is not None else _EARLIEST, record.number)
