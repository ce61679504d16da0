"""People and harm: hazards, prohibitions, and the hands a step needs."""

from __future__ import annotations

from typing import Annotated, ClassVar

from site_builder.notebook.hazard_kinds import HAZARD_KINDS
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Exempt, Remedy
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import NOTHING, Count, Named, OneOf, Ref, Several, SignalWord, Words
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.tree import Text

HazardWord = Annotated[Text, OneOf(*(kind.word for kind in HAZARD_KINDS))]


class Brief(Entry):
    """The few words of a hazard that stand on a card; without them the card says all."""

    harm: Words | None = None
    """What it does, in few words."""
    avoid: Words | None = None
    """How to avoid it, in few words."""


class Hazard(Entry):
    """What can hurt a person (or, with `notice`, only the work)."""

    MAIN: ClassVar[str] = "hazard"
    RINGS = (("hazard", "word", "harm", "avoid"), ("wear", "kind", "away", "brief", "family"))
    hazard: Words
    """What it is."""
    word: SignalWord | None = None
    """The signal word: danger, warning, caution, notice (ANSI Z535.6, ISO 3864)."""
    kind: Several[HazardWord] = ()
    """Of which kind, where its words do not tell: `burn`, `eye`, `cut`, `fire`, `breathing`, `shock`, `corrosive`,
    `noise`. First aid and protection are asked for by it."""
    harm: Words | None = None
    """What it does."""
    avoid: Words | None = None
    """How to avoid it."""
    wear: Several[Ref] = ()
    """Protection to wear."""
    away: Several[Ref] = ()
    """Who must not be near."""
    age: Several[Limit] = ()
    """Least age for work that meets it: `min 16 y`. Where the law draws the line higher, the law goes first."""
    brief: Brief | None = None
    """The same in few words, for a card at the head of a page. Nothing is shortened without them."""
    family: Words | None = None
    """What several hazards have in common: `water under molten metal`. Told on one card where there is room for one."""


class Never(Entry):
    """What must not be done, with its reason."""

    MAIN: ClassVar[str] = "do"
    do: Words
    """What must not be done."""
    unless: Exempt | None = None
    """The allowed departure."""


class Role(Entry):
    """One of several people at the same work."""

    MAIN: ClassVar[str] = "does"
    does: Words | None = None
    """What this one does."""
    skill: Ref | None = None
    """What this one must hold."""


class Hands(Entry):
    """How many hands at once, who does what, who leads."""

    MAIN: ClassVar[str] = "count"
    count: Count | None = None
    """Hands needed at once."""
    roles: Named[Role] = NOTHING
    """Who does what."""
    leads: Ref | None = None
    """The role that leads."""
    missing: Several[Remedy] = ()
    """What if one is not there."""


class Point(Entry):
    """A key point: what makes or breaks the step, could hurt, or makes it easier."""

    MAIN: ClassVar[str] = "point"
    point: Words
    """What makes or breaks the step."""
    pictures: Several[Picture] = ()
    """Pictures of it."""
