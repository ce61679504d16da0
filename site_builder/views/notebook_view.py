"""What every view asks of the notebook as a whole: names, links, the places of steps, free text, the glossary."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Literal

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import By, Limit, Table
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.picture_paths import picture_path
from site_builder.notebook.references import all_steps
from site_builder.notebook.work_places import WorkPlace, WorkPlaces
from site_builder.views import free_text
from site_builder.views.free_text import Glossary, free_words
from site_builder.views.prose import NO_WORDS, Prose, Ref, linked
from site_builder.views.typeset import MONTHS, typeset

System = Literal["metric", "imperial", "both"]
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class NotebookView:
    """Names and places, worked out once a notebook; ``system`` is in which units values are told."""

    def __init__(self, analysis: Analysis, system: System = "both") -> None:
        self.analysis = analysis
        self.system: System = system
        self.notebook = analysis.notebook

    # --- names ------------------------------------------------------------------------------------

    @cached_property
    def titles(self) -> Mapping[tuple[str, str], str]:
        """(kind, id) to what a thing is called, set for people."""
        return {
            (kind, id_): free_text.plain(str(getattr(entry, "title", None) or getattr(entry, "name", None) or id_))
            for kind, shelf in self.notebook.shelves.items()
            for id_, entry in shelf.items()
        }

    def title(self, kind: str, id_: str) -> str:
        """What a thing is called."""
        return self.titles.get((kind, id_), id_)

    @cached_property
    def proper(self) -> frozenset[str]:
        """Prose that keep their capital inside a sentence: names of people, of months and of days."""
        names = {word for person in self.notebook.people.values() for word in str(person.name).split()}
        return frozenset({*names, *MONTHS, *_DAYS})

    def link(self, kind: str, id_: str, said: str | Prose | None = None, anchor: str = "") -> Prose:
        """A thing by name, leading to it."""
        return linked(typeset(self.title(kind, id_)) if said is None else said, Ref(kind, id_, anchor))

    def any_link(self, id_: str, kinds: Iterable[str]) -> Prose:
        """A thing of one of these kinds; the words as written where it is none of them."""
        target = self.analysis.references.find(id_, kinds)
        return self.link(target.kind, target.id) if target is not None else self.words(id_)

    def person(self, who: str) -> Prose:
        """A person by name, or the words as written (a role, `another`)."""
        return self.link("person", who) if who in self.notebook.people else self.words(who)

    # --- free text --------------------------------------------------------------------------------

    def words(self, text: str | None, *, glossary: bool = True) -> Prose:
        """Free text of the notebook, with its links and the words of the glossary."""
        if not text:
            return NO_WORDS
        return free_words(str(text), self._meaning, self._story, self.glossary if glossary else None)

    def plain(self, text: str | None) -> str:
        """The same as one string, for titles, captions read aloud and the finder."""
        return free_text.plain(str(text), self._meaning) if text else ""

    def _meaning(self, id_: str) -> tuple[str, Ref] | None:
        path, _, rest = id_.partition("/")
        target = self.analysis.references.find(path)
        if target is None:
            return None
        anchor = ""
        if rest and target.kind == "procedure":
            steps = self.notebook.procedures[target.id].steps
            step = next((s for s in steps if s.id == rest.split("/")[0]), None)
            anchor = self.anchor(step) if step is not None else ""
        called = target.id if target.kind == "word" else self.title(target.kind, target.id)
        return called, Ref(target.kind, target.id, anchor)

    def _story(self, target: str) -> Ref | None:
        """``[words](stories/history.md)``: a page of the shop's own, written from the notebook's folder."""
        path, _, anchor = target.partition("#")
        wanted = posixpath.normpath(path).removeprefix("procedures/")
        return Ref("story", wanted, anchor) if wanted in self._stories else None

    @cached_property
    def _stories(self) -> frozenset[str]:
        return frozenset(story.path.removeprefix("procedures/") for story in self.notebook.stories)

    @cached_property
    def glossary(self) -> Glossary | None:
        """The words that the shop explains; None where it explains none."""
        listed = sorted(self.notebook.words, key=len, reverse=True)
        if not listed:
            return None
        forms = "|".join(re.escape(typeset(word)) for word in listed)
        found = {typeset(word).lower(): word for word in reversed(listed)}

        def word_of(shown: str) -> str | None:
            low = shown.lower()
            return next((found[f] for f in (low, low.removesuffix("s"), low.removesuffix("es")) if f in found), None)

        return Glossary(re.compile(rf"\b(?P<word>(?:{forms})(?:e?s)?)\b", re.IGNORECASE), word_of)

    # --- places -----------------------------------------------------------------------------------

    @cached_property
    def _places(self) -> Mapping[int, Place]:
        return {id(p.entry): p for places in self.analysis.index.places.values() for p in places}

    def picture_file(self, picture: Picture) -> Path | None:
        """Where the file of a picture lies; None where there is none within the notebook."""
        return picture_path(self.notebook, picture)

    def place_of(self, entry: Entry) -> Place | None:
        """Where an entry hangs."""
        return self._places.get(id(entry))

    @cached_property
    def _anchors(self) -> Mapping[int, str]:
        anchors: dict[int, str] = {}
        for procedure in self.notebook.procedures.values():
            taken = {str(s.id) for s in all_steps(procedure) if s.id is not None}
            for number, step in enumerate(procedure.steps, 1):
                anchors[id(step)] = str(step.id) if step.id is not None else _free(f"step-{number}", taken)
                for letter, inner in enumerate(step.also, 1):
                    anchors[id(inner)] = (
                        str(inner.id) if inner.id is not None else _free(f"step-{number}-also-{letter}", taken)
                    )
            for letter, whole in enumerate(procedure.also, 1):
                anchors[id(whole)] = str(whole.id) if whole.id is not None else _free(f"also-{letter}", taken)
        return anchors

    def anchor(self, step: Step) -> str:
        """The anchor of a step on its page."""
        return self._anchors.get(id(step), str(step.id or "steps"))

    @cached_property
    def _numbers(self) -> Mapping[int, int]:
        return {
            id(one): number
            for procedure in self.notebook.procedures.values()
            for number, step in enumerate(procedure.steps, 1)
            for one in (step, *step.also)
        }

    def step_name(self, procedure: Procedure, step: Step) -> str:
        """``step 3`` as readers count."""
        number = self._numbers.get(id(step))
        if number is None:  # a copy of a step
            number = next((n for n, one in enumerate(procedure.steps, 1) if one is step or step in one.also), None)
        return "the steps" if number is None else f"step {number}"

    @cached_property
    def _work_places(self) -> WorkPlaces:
        return WorkPlaces(self.notebook, self.analysis.route.order)

    def places_of_thing(self, id_: str) -> tuple[WorkPlace, ...]:
        """Where a tool or a material is met."""
        return self._work_places.of_thing.get(id_, ())

    def places_of_procedure(self, id_: str) -> tuple[WorkPlace, ...]:
        """Where a procedure is done."""
        return self._work_places.of_procedure.get(id_, ())

    # --- parts ---------------------------------------------------------------------------------------

    @cached_property
    def worked_on_together(self) -> Mapping[str, tuple[str, ...]]:
        """Of each part the procedures that work on it together with others."""
        found: dict[str, list[str]] = {}
        for id_, procedure in self.notebook.procedures.items():
            parts = self.notebook.parts_of(procedure)
            for part in parts if len(parts) > 1 else ():
                found.setdefault(part, []).append(id_)
        return {part: tuple(ids) for part, ids in found.items()}

    @cached_property
    def dimensions_named(self) -> Mapping[str, frozenset[str]]:
        """Of each procedure, tool … the dimensions by which something in it differs."""
        found: dict[str, set[str]] = {}
        for places in self.analysis.index.places.values():
            for place in places:
                named = found.setdefault(place.owner_id, set())
                if isinstance(place.entry, By):
                    named.add(str(place.entry.name))
                named.update(str(name) for choice in place.entry.for_ for name in choice)
        return {owner: frozenset(names) for owner, names in found.items()}

    # --- where a page need not look -----------------------------------------------------------------

    @cached_property
    def noted(self) -> frozenset[int]:
        """Identities of the procedures and steps where something is written down or kept."""
        return frozenset(self._noted())

    def _noted(self) -> Iterator[int]:
        for kind, places in self.analysis.index.places.items():
            if kind.model_fields.keys() & {"write", "keep"}:
                for place in places:
                    if getattr(place.entry, "write", ()) or getattr(place.entry, "keep", ()):
                        yield from (id(around.entry) for around in place.up() if isinstance(around.entry, Work))

    @cached_property
    def varied(self) -> frozenset[str]:
        """Ids of the procedures that differ by variant, or hold a table."""
        index = self.analysis.index
        tables = {place.owner_id for limit, place in index.under(Limit) if isinstance(limit.is_, Table)}
        return frozenset(tables | {place.owner_id for place in index.conditioned})


def _free(name: str, taken: set[str]) -> str:
    while name in taken:
        name += "-"
    return name
