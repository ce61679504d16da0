"""One walk through the notebook: every entry with its surroundings, every value, every reference."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeVar, cast

from site_builder.notebook.finding import At
from site_builder.notebook.kinds import shelves
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Table
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.tree import Text
from site_builder.quantity import Value

E = TypeVar("E", bound=Entry)
_NOT_WALKED = frozenset({"at", "asked", "for_"})


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """An entry and where it hangs.

    ``key`` is the key of the parent (as the attribute is called), ``name`` the shop's own name
    where the parent holds names; ``rows`` the rows of a table that lead here.
    """

    entry: Entry
    key: str
    name: Text | None
    parent: Place | None
    owner: Entry
    owner_id: str
    step: Step | None
    rows: tuple[Text, ...] = ()

    @property
    def at(self) -> At:
        return self.entry.at

    @property
    def procedure(self) -> Procedure | None:
        return self.owner if isinstance(self.owner, Procedure) else None

    def up(self) -> Iterator[Place]:
        """This place and those around it, from the inside outward."""
        place: Place | None = self
        while place is not None:
            yield place
            place = place.parent


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """A text that is no entry of its own: the value of ``key`` in the entry of ``place``."""

    text: Text
    place: Place
    key: str


@dataclass(frozen=True)
class Index:
    """The notebook laid out flat."""

    notebook: Notebook
    places: Mapping[type[Entry], list[Place]]
    values: list[tuple[ParsedValue[Value], Place, str]]
    texts: list[Spot]
    """Texts that hold a link or another mark-up bracket."""
    leaves: list[tuple[ParsedValue[object], Place, str]]
    """Cadences, moments, trends, dates."""
    plain: list[Spot] = field(default_factory=list)
    """All other texts of entries, ids and references among them."""
    conditioned: list[Place] = field(default_factory=list)
    """Entries that hold only in a variant: those with `for`."""

    def of(self, kind: type[E]) -> Iterator[tuple[E, Place]]:
        """Every entry of exactly this kind, with its place, in order."""
        for place in self.places.get(kind, ()):
            yield cast(E, place.entry), place

    def under(self, kind: type[E]) -> Iterator[tuple[E, Place]]:
        """Every entry of this kind or a narrower one."""
        for narrower, places in self.places.items():
            if issubclass(narrower, kind):
                for place in places:
                    yield cast(E, place.entry), place


def build_index(notebook: Notebook) -> Index:
    """Walk once through everything the shop wrote."""
    walk = _Walk(defaultdict(list), [], [], [], [], [])
    for owner_id, owner in _owners(notebook):
        walk.entry(Place(owner, "", None, None, owner, owner_id, None))
    return Index(notebook, walk.places, walk.values, walk.texts, walk.leaves, walk.plain, walk.conditioned)


def _owners(nb: Notebook) -> Iterator[tuple[str, Entry]]:
    if nb.shop is not None:
        yield str(nb.shop.shop), nb.shop
    for noun, shelf in shelves().items():
        if shelf.walked:
            yield from nb.shelves.get(noun, {}).items()
    for book, records in nb.books.items():
        for record in records:
            yield f"{book} {record.number}", record


@dataclass(slots=True)
class _Walk:
    places: dict[type[Entry], list[Place]]
    values: list[tuple[ParsedValue[Value], Place, str]]
    texts: list[Spot]
    leaves: list[tuple[ParsedValue[object], Place, str]]
    plain: list[Spot]
    conditioned: list[Place]

    def entry(self, place: Place) -> None:
        entry = place.entry
        self.places[type(entry)].append(place)
        for key, value in entry.fields().items():
            if not value:
                continue
            if key not in _NOT_WALKED:
                self._value(value, place, key, None, ())
            elif key == "for_":
                self.conditioned.append(place)

    def _value(self, value: object, place: Place, key: str, name: Text | None, rows: tuple[Text, ...]) -> None:
        kind = type(value)
        if kind is Text:
            text = cast(Text, value)
            (self.texts if "[" in text else self.plain).append(Spot(text, place, key))
        elif kind is ParsedValue:
            leaf = cast("ParsedValue[Value]", value)
            if type(leaf.value) is Value:
                self.values.append((leaf, place, key))
            else:
                self.leaves.append((cast("ParsedValue[object]", leaf), place, key))
        elif kind is tuple:
            for one in cast("tuple[object, ...]", value):
                self._value(one, place, key, name, rows)
        elif isinstance(value, Entry):
            step = value if isinstance(value, Step) and place.procedure is not None else place.step
            self.entry(Place(value, key, name, place, place.owner, place.owner_id, step, rows))
        elif isinstance(value, Table):
            for row, inside in value.rows.items():
                self._value(inside, place, key, name, (*rows, row))
        elif isinstance(value, Mapping):
            for inner_name, inside in value.items():
                self._value(inside, place, key, inner_name, rows)
