"""What points where: ids, paths and links resolved, and the way back from each thing to its uses.

Resolution goes outward from where the reference stands: step, procedure, part, material, machine,
shop. Two hits on one ring are an error, no hit is another.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from site_builder.notebook.finding import At
from site_builder.notebook.index import Index, Place, Spot
from site_builder.notebook.kinds import kind_of, link_nouns
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import ROUTES
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.small import After
from site_builder.notebook.model.things import Thing
from site_builder.notebook.names import KNOWN_DIMENSIONS, NamedValue, values_of
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reference_keys import PROCEDURE, kinds_for
from site_builder.notebook.shares import amounts_named
from site_builder.notebook.tree import Text

LINK = re.compile(r"\[\[([^\[\]|]+)(?:\|([^\[\]]*))?\]\]")
_CODE = re.compile(r"`[^`]+`")
"""Between backticks a text may show how a link is written."""


@dataclass(frozen=True, slots=True)
class Target:
    """What a reference leads to: the thing of this kind and id, and a spot within it."""

    kind: str
    id: str
    entry: Entry | None = None
    step: Step | None = None
    value: NamedValue | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """A reference as written, where it stands, what kinds it may lead to and what it leads to."""

    text: str
    at: At
    place: Place
    key: str
    kinds: tuple[str, ...]
    target: Target | None
    hits: int = 1


class References:
    """All references of a notebook, resolved once."""

    def __init__(self, index: Index) -> None:
        self.index = index
        self.notebook: Notebook = index.notebook
        self._named: dict[int, list[NamedValue]] = {}
        self._amounts: dict[int, list[NamedValue]] = {}

    @cached_property
    def links(self) -> tuple[Link, ...]:
        """Every reference that stands in a key made for one, and every `[[link]]` in a text."""
        return tuple(self._links())

    @cached_property
    def uses(self) -> Mapping[tuple[str, str], tuple[Link, ...]]:
        """Back-links: (kind, id) to the references that lead there from elsewhere."""
        back: dict[tuple[str, str], list[Link]] = defaultdict(list)
        for link in self.links:
            target = link.target
            if target is not None and target.id != link.place.owner_id:
                back[target.kind, target.id].append(link)
        return {key: tuple(links) for key, links in back.items()}

    def values_in(self, entry: Entry, kind: str) -> list[NamedValue]:
        """Everything in a thing that has a name others can use."""
        found = self._named.get(id(entry))
        if found is None:
            found = self._named[id(entry)] = values_of(entry, kind)
        return found

    def used_in(self, kind: str, id_: str) -> tuple[Link, ...]:
        """The references that lead to a thing, from elsewhere."""
        return self.uses.get((kind, id_), ())

    def _links(self) -> Iterator[Link]:
        for spot in self.index.plain:
            kinds = kinds_for(type(spot.place.entry), spot.key)
            if kinds is not None:
                yield self._link(spot.text, spot.text.at, spot, kinds)
        for spot in self.index.texts:
            shown = _CODE.sub(lambda code: " " * len(code[0]), spot.text) if "`" in spot.text else spot.text
            for found in LINK.finditer(shown):
                yield self._link(found[1].strip(), spot.text.at_letter(found.start()), spot, link_nouns())
        for leaf, place, key in self.index.leaves:
            if isinstance(place.entry, After) and key == "done":
                yield self._after(leaf.text, place, key)

    def _after(self, text: Text, place: Place, key: str) -> Link:
        """`after:` names a procedure, a step of this one, or (in words) an event."""
        name = re.sub(r"^(start|end) of ", "", text)
        target = self.find(name, PROCEDURE) or self._route(name, place)
        return Link(name, text.at, place, key, ("procedure", "event?"), target)

    def _link(self, text: str, at: At, spot: Spot, kinds: tuple[str, ...]) -> Link:
        target, hits = self._resolve(str(text), spot.place, kinds)
        return Link(str(text), at, spot.place, spot.key, kinds, target, hits)

    def _resolve(self, text: str, place: Place, kinds: tuple[str, ...]) -> tuple[Target | None, int]:
        head = kinds[0].rstrip("?")
        if head == "route":
            return (Target("route", text), 1) if text in ROUTES else (self._route(text, place), 1)
        if head == "trouble":
            return self._trouble(text, place), 1
        if head == "value":
            found = self.values(text.removeprefix("minus ").strip(), place)
            if not found:
                return None, 0
            return Target(found[0].kind, found[0].owner_id, found[0].entry, found[0].step, found[0]), len(found)
        if head == "path" or "/" in text:
            return self._path(text, place), 1
        if head == "customer":
            customers = {} if self.notebook.shop is None else self.notebook.shop.customers
            return (Target("customer", text) if text in customers else None), 1
        return self.find(text, kinds), 1

    def find(self, id_: str, kinds: Iterable[str] | None = None) -> Target | None:
        """The thing of this id among these kinds (else all that a link may mean); the first that has it."""
        nb = self.notebook
        for kind_or_words in link_nouns() if kinds is None else kinds:
            kind = kind_or_words.rstrip("?")
            if kind == "word":
                if id_ in nb.words or id_.replace("-", " ") in nb.words:
                    return Target("word", id_ if id_ in nb.words else id_.replace("-", " "))
            elif id_ in nb.shelves.get(kind, ()):
                return Target(kind, id_, nb.shelves[kind][id_])
        return None

    def _route(self, text: str, place: Place) -> Target | None:
        """A step of the same procedure, a procedure, or procedure/step."""
        own = place.procedure
        if own is not None:
            step = step_of(own, text)
            if step is not None:
                return Target("procedure", place.owner_id, own, step)
        if isinstance(place.owner, Thing):
            for one in place.owner.upkeep:
                if one.id == text:
                    return Target(kind_of(place.owner), place.owner_id, place.owner, one)
        if "/" in text:
            return self._path(text, place)
        return self.find(text, PROCEDURE)

    def _trouble(self, text: str, place: Place) -> Target | None:
        own = place.procedure
        if own is None:
            return None
        for work in (own, *all_steps(own)):
            if any(trouble.id == text for trouble in work.troubles):
                return Target("procedure", place.owner_id, own, work if isinstance(work, Step) else None)
        return None

    def _path(self, text: str, place: Place) -> Target | None:
        first, _, rest = text.partition("/")
        target = self.find(first)
        if target is None:
            own = place.procedure
            step = step_of(own, first) if own is not None else None
            if own is None or step is None:
                return None
            target = Target("procedure", place.owner_id, own)
            rest = text
        if not rest:
            return target
        if isinstance(target.entry, Procedure):
            step = step_of(target.entry, rest.split("/")[0])
            if step is not None and "/" not in rest:
                return Target(target.kind, target.id, target.entry, step)
        found = self.values(text, place)
        return Target(target.kind, target.id, target.entry, found[0].step, found[0]) if found else None

    # ------------------------------------------------------------------ named values

    def values(self, name: str, place: Place) -> list[NamedValue]:
        """The values of this name nearest to ``place``; several when one ring holds several.

        What stands within a value does not mean that value itself, but the one further out.
        """
        first, slash, rest = name.partition("/")
        if slash:
            return self._values_at(first, rest, place)
        around = {id(outer.entry) for outer in place.up()}
        for ring in self._rings(place):
            hits = [
                value for value in ring
                if value.name == name and not any(id(limit) in around for limit in value.limits)
            ]
            if hits:
                return hits
        return []

    def _values_at(self, first: str, rest: str, place: Place) -> list[NamedValue]:
        if first in KNOWN_DIMENSIONS and self.find(first) is None:
            in_hand = self._in_hand(first, place)
            return [v for owner in in_hand for v in self.values_in(owner, kind_of(owner)) if v.name == rest]
        own = place.procedure
        step = step_of(own, first) if own is not None else None
        if own is not None and step is not None:
            return [v for v in self.values_in(own, "procedure") if v.step is step and v.name == rest]
        target = self.find(first)
        if target is None or target.entry is None:
            return []
        step_id, slash, last = rest.partition("/")
        values = self.values_in(target.entry, target.kind)
        if slash:
            return [v for v in values if v.step is not None and v.step.id == step_id and v.name == last]
        return [v for v in values if v.name == rest]

    def _in_hand(self, dimension: str, place: Place) -> Iterator[Entry]:
        own = place.procedure
        if own is None:
            return
        works: tuple[Work, ...] = (own, *all_steps(own))
        nb = self.notebook
        if dimension == "material":
            used = dict.fromkeys(u.material for w in works for u in w.materials)
            yield from (nb.materials[id_] for id_ in used if id_ in nb.materials)
        elif dimension == "machine":
            used = dict.fromkeys(u.tool for w in works for u in w.tools)
            yield from (nb.tools[id_] for id_ in used if id_ in nb.tools)
        elif dimension in ("part", "product"):
            yield from (nb.parts[p] for p in nb.parts_of(own) if p in nb.parts)

    def _rings(self, place: Place) -> Iterator[list[NamedValue]]:
        """From the inside outward: step, procedure, part, material, machine, shop; last the amounts of what goes in."""
        own = place.procedure
        nb = self.notebook
        if own is None:
            yield self.values_in(place.owner, kind_of(place.owner))
            yield [v for p in nb.parts.values() for v in self.values_in(p, "part")]
            return
        values = self.values_in(own, "procedure")
        if place.step is not None:
            yield [v for v in values if v.step is place.step]
        yield [v for v in values if v.step is None]
        yield [v for v in values if v.step is not None]
        yield [v for p in nb.parts_of(own) if p in nb.parts for v in self.values_in(nb.parts[p], "part")]
        yield [v for m in self._in_hand("material", place) for v in self.values_in(m, "material")]
        yield [v for m in self._in_hand("machine", place) for v in self.values_in(m, "tool")]
        used = dict.fromkeys(s.use for s in all_steps(own) if s.use is not None and s.use in nb.procedures)
        yield [v for id_ in used for v in self.values_in(nb.procedures[id_], "procedure")]
        if id(own) not in self._amounts:
            self._amounts[id(own)] = list(amounts_named(nb, own))
        yield self._amounts[id(own)]


def all_steps(own: Procedure) -> tuple[Step, ...]:
    """Steps and the acts within them, in order; then the acts within the procedure as a whole."""
    return own.every_step


def step_of(own: Procedure | None, id_: str) -> Step | None:
    """The step of this id."""
    return None if own is None else own.steps_by_id.get(id_)

