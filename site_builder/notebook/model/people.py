"""Who: the people of the shop, and the skills they hold or learn."""

from __future__ import annotations

from typing import Annotated, ClassVar

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import (
    Amount,
    Count,
    DateText,
    Id,
    Named,
    OneOf,
    Ref,
    Several,
    Words,
    Yes,
)
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.small import WEEKDAYS, Need, Paper
from site_builder.notebook.tree import Text


class Person(Entry):
    """One of the people of the shop."""

    MAIN: ClassVar[str] = "name"
    name: Words
    """The full name."""
    role: Words | None = None
    """What they are in the shop."""
    born: DateText | None = None
    """Date or year of birth; ages are reckoned from it."""
    joined: DateText | None = None
    """Since when in the shop."""
    left: DateText | None = None
    """Until when."""
    hours: Amount | None = None
    """Working time: `20 h/week`."""
    learning: Amount | None = None
    """Of it, so much for lessons, given or taken: `6 h/week`."""
    other: Amount | None = None
    """Of it, so much for other work than orders, repairs or the books: `10 h/week`."""
    days: Several[Annotated[Text, OneOf(*WEEKDAYS)]] = ()
    """Their own working days, by full name; those of the shop if not written."""
    absent: Several[DateText] = ()
    """Days and spans away: `2027-02-08..2027-02-19`."""
    founding: Yes | None = None
    """The chain of sign-offs begins here: may sign for every skill, and nobody signed that first."""
    papers: Several[Paper] = ()
    """Licences and certificates held."""
    key: Several[Words] = ()
    """Public key for signatures; earlier ones stand beside the one in use."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""


class People(Entry):
    """`skills/people.yml`."""

    people: Named[Person]
    """Everybody, by id."""


class Show(Entry):
    """One item of a skill's checklist."""

    MAIN: ClassVar[str] = "show"
    show: Words
    """What the learner shows."""
    id: Id | None = None
    """Needed once something points here."""
    evidence: Annotated[Text, OneOf("practice", "trial", "measurement", "seen")] | None = None
    """How it is shown; `seen` if not written."""


class Proof(Entry):
    """What must stand in the records before somebody may work alone."""

    pieces: Count | None = None
    """How many pieces."""
    share: Amount | None = None
    """The share that must be good."""
    confidence: Amount | None = None
    """How sure one wants to be."""
    agreement: Several[Limit] = ()
    """Agreement in feel trials."""
    limits: Several[Ref] = ()
    """The limits it is measured by."""
    checks: Several[Check] = ()
    """A test piece."""


class Skill(Entry):
    """What one can do who has it, and how it is shown."""

    RINGS = (("skill", "title", "covers", "checklist"), ("needs", "age", "proof", "refresh", "lessons", "hazards"))
    skill: Id
    """The id; the same as the file's name."""
    title: Words
    """Its name."""
    covers: Several[Ref] = ()
    """The procedures one can do who has it."""
    needs: Several[Need] = ()
    """What must be held first."""
    checklist: Several[Show] = ()
    """What the learner shows, item by item."""
    lessons: Amount | None = None
    """Hours of teaching from the first look until alone: `120 h`."""
    proof: Proof | None = None
    """What must stand in the records."""
    papers: Several[Paper] = ()
    """What one must hold besides."""
    age: Several[Limit] = ()
    """From which age."""
    refresh: Several[Limit] = ()
    """Stale after so long without practice."""
    hazards: Several[Hazard] = ()
    """What the work does to a body."""
    pictures: Several[Picture] = ()
    """Pictures."""
    questions: Several[Words] = ()
    """What we still want to ask."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""

    @property
    def id(self) -> Text:
        return self.skill


