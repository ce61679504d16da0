"""Where a thing is used: by which work and at which steps, by which tool, in which part."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from site_builder.notebook.gather import wear_of
from site_builder.notebook.kinds import kind_of, link_nouns
from site_builder.notebook.model.judging import Trouble
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.things import Thing
from site_builder.notebook.references import Link
from site_builder.views.counts import number
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, joined, say, toned


@dataclass
class Use:
    """One user of a thing: a procedure with its steps, a tool, a part."""

    kind: str
    id: str
    steps: list[Step] = field(default_factory=list)


class Uses:
    """Who uses what, for all tools and materials of a notebook."""

    def __init__(self, view: NotebookView) -> None:
        self.view = view
        self._found: dict[tuple[str, str], tuple[Use, ...]] = {}
        self._rank = {id_: i for i, id_ in enumerate(view.analysis.route.order)}

    @cached_property
    def worn_for(self) -> Mapping[str, tuple[str, ...]]:
        """Of each procedure, in the order of the work, what is worn: for itself, its tools and its materials."""
        nb = self.view.notebook
        return {id_: tuple(str(g.item) for g in wear_of(nb, nb.procedures[id_])) for id_ in self._rank}

    @cached_property
    def worn(self) -> Mapping[str, tuple[str, ...]]:
        """Of each piece of protection the procedures for which it is worn."""
        found: dict[str, list[str]] = defaultdict(list)
        for id_, worn in self.worn_for.items():
            for one in worn:
                found[one].append(id_)
        return {one: tuple(ids) for one, ids in found.items()}

    def links(self, kind: str, id_: str) -> tuple[Link, ...]:
        """References of keys that mean use; a mention in a sentence and a refusal are none."""
        found = self.view.analysis.references.used_in(kind, id_)
        no_use = ("not_", "apart", "members")
        return tuple(link for link in found if link.kinds != link_nouns() and link.key not in no_use)

    def of(self, kind: str, id_: str) -> tuple[Use, ...]:
        """Procedures first, in the order of the work, each with the steps that name the thing."""
        told = self._found.get((kind, id_))
        if told is None:
            told = self._found[kind, id_] = self._gather(kind, id_)
        return told

    def _gather(self, kind: str, id_: str) -> tuple[Use, ...]:
        found: dict[tuple[str, str], Use] = {}
        for link in self.links(kind, id_):
            owner = link.place.owner
            part = next((p for p in link.place.up() if isinstance(p.entry, Part) and p.name is not None), None)
            if part is not None:
                key = ("part", str(part.name))
            elif isinstance(owner, Procedure | Thing):
                key = (kind_of(owner), link.place.owner_id)
            else:
                continue
            use = found.setdefault(key, Use(*key))
            step = link.place.step
            if isinstance(owner, Procedure) and step is not None and all(one is not step for one in use.steps):
                use.steps.append(step)
        for procedure in self.worn.get(id_, ()) if kind == "tool" else ():
            found.setdefault(("procedure", procedure), Use("procedure", procedure))
        return tuple(sorted(found.values(), key=lambda use: (use.kind != "procedure", self._rank.get(use.id, -1))))

    def troubles(self, kind: str, id_: str) -> tuple[tuple[Trouble, str], ...]:
        """Troubles of the work in which this thing is named, with the id of the procedure."""
        found: dict[int, tuple[Trouble, str]] = {}
        for link in self.view.analysis.references.used_in(kind, id_):
            for place in link.place.up():
                if isinstance(place.entry, Trouble) and place.procedure is not None:
                    found[id(place.entry)] = (place.entry, place.owner_id)
        return tuple(found.values())

    def said(self, use: Use) -> Prose:
        """A user by name, with each step."""
        whole = self.view.link(use.kind, use.id)
        if not use.steps:
            return whole
        own = self.view.notebook.procedures[use.id]
        names = {self.view.step_name(own, step): self.view.anchor(step) for step in reversed(use.steps)}
        order = sorted(names, key=lambda name: (len(name), name))
        return say("{} {}", whole, toned("at", joined(
            (self.view.link(use.kind, use.id, name, names[name]) for name in order), ", ")))

    def in_short(self, kind: str, id_: str, most: int = 3) -> Prose:
        """The first few procedures that use a thing, and how many more there are."""
        ids = [use.id for use in self.of(kind, id_) if use.kind == "procedure"]
        named = joined((self.view.link("procedure", one) for one in ids[:most]), ", ")
        more = len(ids) - most
        return say("{} and {}\u00a0more", named, number(more)) if more > 0 else named
