"""The notebook as a whole: everything the shop wrote, by kind and id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TypeVar

from site_builder.notebook.finding import At
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.people import People, Person, Skill
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.records import Incident, Measurement, Practice, Record, SignOff, Trial
from site_builder.notebook.model.season import Season
from site_builder.notebook.model.shop import Change, Order, Part, Shop
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.model.things import Material, Protection, Sample, Thing, Tool
from site_builder.notebook.tree import Text
from site_builder.tellings.cue import Transcript

E = TypeVar("E", bound=Entry)


@dataclass(frozen=True, slots=True)
class Story:
    """A free Markdown page of the shop."""

    path: str
    text: str
    title: str


@dataclass(frozen=True)
class Notebook:
    """Typed and frozen; every value inside knows its file, line and column."""

    root: Path
    shop: Shop | None = None
    shelves: Mapping[str, Mapping[str, Entry]] = field(default_factory=dict)
    """By the noun of the table of kinds, every thing by its id."""
    about_people: People | None = None
    """What is said of all of them together."""
    transcripts: Mapping[str, Transcript] = field(default_factory=dict)
    """Of each telling whose transcript could be read, its sentences."""
    books: Mapping[str, tuple[Record, ...]] = field(default_factory=dict)
    stories: tuple[Story, ...] = ()
    unread: frozenset[str] = frozenset()
    """Ids of files that could not be read; nothing may be concluded from their absence."""
    digests: Mapping[str, str] = field(default_factory=dict)
    """Of each file the digest of the bytes that were read, by the path as findings name it."""

    @cached_property
    def procedures(self) -> Mapping[str, Procedure]:
        return self._on("procedure", Procedure)

    @cached_property
    def tools(self) -> Mapping[str, Tool]:
        return self._on("tool", Tool)

    @cached_property
    def materials(self) -> Mapping[str, Material]:
        return self._on("material", Material)

    @cached_property
    def skills(self) -> Mapping[str, Skill]:
        return self._on("skill", Skill)

    @cached_property
    def people(self) -> Mapping[str, Person]:
        return self._on("person", Person)

    @cached_property
    def changes(self) -> Mapping[str, Change]:
        return self._on("change", Change)

    @cached_property
    def orders(self) -> Mapping[str, Order]:
        return self._on("order", Order)

    @cached_property
    def seasons(self) -> Mapping[str, Season]:
        return self._on("season", Season)

    @cached_property
    def tellings(self) -> Mapping[str, Telling]:
        return self._on("telling", Telling)

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """Parts and products by id."""
        return self._on("part", Part)

    @cached_property
    def products(self) -> Mapping[str, Part]:
        return {} if self.shop is None else {str(k): v for k, v in self.shop.products.items()}

    @cached_property
    def words(self) -> Mapping[str, Text]:
        """The glossary: each word that is explained, with its meaning."""
        found = {} if self.shop is None else self.shop.words
        return {str(k): v.means for k, v in found.items() if v.means is not None}

    @cached_property
    def synonyms(self) -> Mapping[str, tuple[str, ...]]:
        """Of each word of the glossary what else people call it."""
        return {} if self.shop is None else {str(k): tuple(map(str, v.also)) for k, v in self.shop.words.items()}

    @cached_property
    def things(self) -> Mapping[str, Thing]:
        """Tools and materials together."""
        return {**self.tools, **self.materials}

    @cached_property
    def groups(self) -> Mapping[str, tuple[str, ...]]:
        """Of each thing, the groups that name it among their members."""
        found: dict[str, list[str]] = {}
        for id_, thing in self.things.items():
            for member in thing.members:
                found.setdefault(str(member), []).append(id_)
        return {member: tuple(groups) for member, groups in found.items()}

    @cached_property
    def protection(self) -> Mapping[str, Protection]:
        return {k: v for k, v in self.tools.items() if isinstance(v, Protection)}

    @cached_property
    def samples(self) -> Mapping[str, Sample]:
        return {k: v for k, v in self.tools.items() if isinstance(v, Sample)}

    @property
    def sign_offs(self) -> tuple[SignOff, ...]:
        return tuple(r for r in self.books.get("sign-off", ()) if isinstance(r, SignOff))

    @property
    def practice(self) -> tuple[Practice, ...]:
        return tuple(r for r in self.books.get("practice", ()) if isinstance(r, Practice))

    @property
    def trials(self) -> tuple[Trial, ...]:
        return tuple(r for r in self.books.get("trial", ()) if isinstance(r, Trial))

    @property
    def measurements(self) -> tuple[Measurement, ...]:
        return tuple(r for r in self.books.get("measurement", ()) if isinstance(r, Measurement))

    @property
    def incidents(self) -> tuple[Incident, ...]:
        return tuple(r for r in self.books.get("incident", ()) if isinstance(r, Incident))

    @cached_property
    def living(self) -> Mapping[str, Person]:
        """People who are (still) in the shop."""
        return {k: p for k, p in self.people.items() if p.left is None}

    def parts_of(self, procedure: Procedure) -> tuple[str, ...]:
        """The parts a procedure works on: those written, or the one its folder is named for."""
        if procedure.part:
            return tuple(map(str, procedure.part))
        folder = procedure.at.path.split("/")[-2] if procedure.at.path.count("/") else ""
        return (folder,) if folder in self.parts else ()

    def makes_of(self, procedure: Procedure) -> tuple[str, ...]:
        """What comes of a procedure: what is written, or the part worked on."""
        return tuple(map(str, procedure.makes)) or self.parts_of(procedure)[:1]

    def steps(self) -> Iterator[tuple[Procedure, Step]]:
        """Every step of every procedure in order, acts within a step after it."""
        for procedure in self.procedures.values():
            for step in procedure.steps:
                yield procedure, step
                for inner in step.also:
                    yield procedure, inner

    def line(self, at: At) -> str:
        """The line of a file that a finding points at; empty if it cannot be read."""
        file = self.root / at.path
        try:
            if not file.is_file():  # a pipe: what reads it waits for ever
                return ""
            lines = file.read_text("utf-8-sig", errors="replace").split("\n")
            return lines[at.line - 1].rstrip("\r")
        except (OSError, IndexError):
            return ""

    def entry(self, id_: str) -> Entry | None:
        """The thing of this id, of whatever kind; the first shelf that has it."""
        return next((shelf[id_] for shelf in self.shelves.values() if id_ in shelf), None)

    def _on(self, noun: str, model: type[E]) -> Mapping[str, E]:
        return {id_: one for id_, one in self.shelves.get(noun, {}).items() if isinstance(one, model)}
