"""The kinds of things in a notebook, in one table: whoever goes by kind asks here.

A ``Kind`` is what a file can begin with; a ``Shelf`` is what references, links, titles and addresses know as one kind
of thing. Several kinds may stand on one shelf (a machine and a gauge are both a tool).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.people import People, Person, Skill
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import BOOKS, Record
from site_builder.notebook.model.season import Season
from site_builder.notebook.model.shop import Change, Order, Part, Shop
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.model.things import (
    Gauge,
    HandTool,
    Machine,
    Material,
    Protection,
    Sample,
    Tooling,
)

Family = Literal["work", "things", "people", "shop", "tellings"]
"""On which page of the guide its keys stand."""
Keys = Mapping[str, tuple[str, ...]]
"""Keys that hold references, and to what; where free words may stand too, ``?`` follows."""


@dataclass(frozen=True, slots=True, eq=False)
class Shelf:
    """Things that are looked for together."""

    noun: str
    """As references, pages and titles name it."""
    a: str
    """`a tool`."""
    address: str = ""
    """Where its pages stand: `{page}` its own page, `{id}` its id, `{folder}` that of its file."""
    way: str = ""
    """How one comes into the notebook, with `{}` for its id."""
    home: str = ""
    """Where all of them stand in one file: the name of that file."""
    linked: bool = True
    """Whether ``[[id]]`` finds it."""
    walked: bool = True
    """Whether it is laid out by itself; what stands in the shop is laid out with the shop."""
    has_own_page: bool = False
    """Whether a chapter of the book makes its pages; else each has a plain one."""


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """What a file can begin with; without ``key`` it stands within another's file."""

    key: str
    model: type[Entry]
    shelf: Shelf | None = None
    """None where there is only one in a notebook."""
    a: str = ""
    """`a machine`."""
    several: str = ""
    """`Machines`, as a heading."""
    folder: str = ""
    """Where a new file of it is put."""
    family: Family = "shop"
    begins: str = ""
    """What a new file asks for after its title."""
    references: Keys = field(default_factory=dict)
    """Its own keys that hold references."""


_PROCEDURES = Shelf("procedure", "a procedure", "the-work/{folder}/{page}",
                    "begin its page with `benchlore new procedure {}`", has_own_page=True)
_PARTS = Shelf("part", "a part", "the-work/{id}/index.md", "add `{}` under `parts` of procedures/shop.yml", home="shop",
               walked=False, has_own_page=True)
_TOOLS = Shelf("tool", "a tool", "the-tools/{page}", "begin its page with `benchlore new tool {}`", has_own_page=True)
_MATERIALS = Shelf("material", "a material", "the-tools/materials/{page}",
                   "begin its page with `benchlore new material {}`", has_own_page=True)
_SKILLS = Shelf("skill", "a skill", "the-hands/skills/{page}", "begin its page with `benchlore new skill {}`",
                has_own_page=True)
_PEOPLE = Shelf("person", "a person", "the-hands/people/{page}", "add the person with `benchlore new person {}`",
                home="people", has_own_page=True)
_CHANGES = Shelf("change", "a change", "changes/{page}", has_own_page=True)
_ORDERS = Shelf("order", "an order", "orders/{page}", has_own_page=True)
_SEASONS = Shelf("season", "a season", "the-season/index.md", linked=False, walked=False, has_own_page=True)
_TELLINGS = Shelf("telling", "a telling", linked=False, has_own_page=True)

TABLE: tuple[Kind, ...] = (
    Kind("shop", Shop),
    Kind("procedure", Procedure, _PROCEDURES, "a procedure", "Procedures", "procedures/shared", "work"),
    Kind("", Part, _PARTS, "a part", "Parts", references={"material": ("material",)}),
    Kind("machine", Machine, _TOOLS, "a machine", "Machines", "tools/machines", "things",
         "maker: ask\nhazards: ask\nproperties: ask\n"),
    Kind("hand-tool", HandTool, _TOOLS, "a hand tool", "Hand tools", "tools/hand", "things", "hazards: ask\n"),
    Kind("gauge", Gauge, _TOOLS, "a gauge", "Gauges", "tools/gauges", "things", "calibration: ask\n"),
    Kind("tooling", Tooling, _TOOLS, "tooling that wears", "Tooling", "tools/tooling", "things", "life: ask\n"),
    Kind("protection", Protection, _TOOLS, "protection", "Protection", "tools/protection", "things"),
    Kind("sample", Sample, _TOOLS, "a reference piece", "Reference pieces", "tools/samples", "things", "legend: ask\n"),
    Kind("material", Material, _MATERIALS, "a material", "Materials", "tools/materials", "things",
         "hazards: ask\nsheet: ask\n", {"apart": ("material",)}),
    Kind("people", People, family="people"),
    Kind("skill", Skill, _SKILLS, "a skill", "Skills", "skills", "people", references={"covers": ("procedure",)}),
    Kind("", Person, _PEOPLE, "a person", "People", family="people"),
    Kind("change", Change, _CHANGES, "a change", "Changes", "procedures/changes",
         references={"covers": ("procedure",), "who": ("person",)}),
    Kind("order", Order, _ORDERS, "an order", "Orders", "procedures/orders",
         references={"product": ("part",), "customer": ("customer",)}),
    Kind("season", Season, _SEASONS, "a season", "Seasons", "procedures/seasons", references={"order": ("order",)}),
    Kind("telling", Telling, _TELLINGS, "a telling", "Tellings", "procedures/tellings", "tellings",
         references={"teller": ("person",), "others": ("person",)}),
)
"""All kinds, in the order in which a name is looked for."""

RECORD_KINDS: Mapping[str, type[Record]] = {book.KIND: book for book in BOOKS}
"""First key of an entry of the books, and what it then is."""


def by_key() -> Mapping[str, Kind]:
    """First key of a file and what the file then is."""
    return _by_key(TABLE)


def models() -> Mapping[str, type[Entry]]:
    """First key of a file and its model."""
    return {key: kind.model for key, kind in by_key().items()}


def shelves() -> Mapping[str, Shelf]:
    """Every shelf by its noun, in the order in which a name is looked for."""
    return _shelves(TABLE)


def link_nouns() -> tuple[str, ...]:
    """The nouns that a ``[[link]]`` may mean."""
    return _link_nouns(TABLE)


def on_shelf(noun: str) -> tuple[Kind, ...]:
    """The kinds that stand together."""
    return tuple(kind for kind in TABLE if kind.shelf is not None and kind.shelf.noun == noun)


def shelf_of(entry: Entry) -> Shelf | None:
    """Where a thing stands; None for what is no thing of its own."""
    return _shelf_of(type(entry), TABLE)


def kind_of(entry: Entry) -> str:
    """The kind of thing, as references name it."""
    shelf = shelf_of(entry)
    return shelf.noun if shelf is not None else type(entry).__name__.lower()


def own_references(model: type[Entry]) -> Keys:
    """The keys of exactly this kind that hold references."""
    return next((kind.references for kind in TABLE if kind.model is model), {})


def id_of(entry: Entry) -> str:
    """The id of a thing that has a file of its own: what stands behind its first key; empty if it has none."""
    kind = next((kind for kind in TABLE if kind.model is type(entry)), None)
    return str(getattr(entry, kind.key.replace("-", "_"))) if kind is not None and kind.key else ""


@lru_cache(maxsize=4)
def _by_key(table: tuple[Kind, ...]) -> Mapping[str, Kind]:
    return {kind.key: kind for kind in table if kind.key}


@lru_cache(maxsize=4)
def _shelves(table: tuple[Kind, ...]) -> Mapping[str, Shelf]:
    return {kind.shelf.noun: kind.shelf for kind in table if kind.shelf is not None}


@lru_cache(maxsize=4)
def _link_nouns(table: tuple[Kind, ...]) -> tuple[str, ...]:
    return (*(noun for noun, shelf in _shelves(table).items() if shelf.linked), "word")


@lru_cache(maxsize=256)
def _shelf_of(model: type[Entry], table: tuple[Kind, ...]) -> Shelf | None:
    return next((kind.shelf for kind in table if issubclass(model, kind.model)), None)
