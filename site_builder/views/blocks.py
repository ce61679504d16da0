"""What stands below the head of a page: plain values, in the order in which a face sets them.

A block knows for whom it holds (``only``) and why (``reasons``, set in the margin where there is one).
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from site_builder.views.prose import EVERY, NO_WORDS, Only, Prose


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Anything below the sentence of a step, or of the procedure as a whole."""

    kind: ClassVar[str] = ""
    only: Only = EVERY
    reasons: tuple[Prose, ...] = ()
    anchor: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said(Block):
    """A line of its own: a label in the voice of gauges, and words."""

    kind: ClassVar[str] = "said"
    label: str
    words: Prose


@dataclass(frozen=True, slots=True)
class Ends:
    """The figures of a value, to be drawn on a line: its least, its most, what to aim at; empty where there is none.

    The unit stands in them only where they do not share it.
    """

    low: str
    high: str
    aim: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One of several: a point, a setting, an act in between."""

    words: Prose
    lead: Prose = NO_WORDS
    reasons: tuple[Prose, ...] = ()
    only: Only = EVERY
    anchor: str = ""
    tail: tuple[Prose, ...] = ()
    blocks: tuple[Block, ...] = ()
    ends: Ends | None = None
    stops: bool = False
    """Of a check: whether the work must stop until it is set right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Points(Block):
    """What makes or breaks the work, each with its reason."""

    kind: ClassVar[str] = "points"
    items: tuple[Item, ...]
    looks: bool = False
    """Looked at before the first move: set with a box to tick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(Block):
    """What one sets."""

    kind: ClassVar[str] = "settings"
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meanwhile(Block):
    """What is done every so often within the work."""

    kind: ClassVar[str] = "meanwhile"
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class GaugeSide:
    """One side of a gauge line: from where on, and what then."""

    words: Prose
    then: Prose = NO_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge(Block):
    """A limit or a window on one line: too little, right, too much."""

    kind: ClassVar[str] = "gauge"
    what: Prose
    value: Prose = NO_WORDS
    other: str = ""
    how: tuple[Prose, ...] = ()
    low: GaugeSide | None = None
    good: GaugeSide | None = None
    high: GaugeSide | None = None
    of_time: bool = False
    ends: Ends | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table and for whom it holds."""

    cells: tuple[Prose, ...]
    only: Only = EVERY
    anchor: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid(Block):
    """A small table."""

    kind: ClassVar[str] = "grid"
    caption: Prose
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    tail: tuple[Prose, ...] = ()


@dataclass(frozen=True, slots=True)
class PictureMark:
    """A place on a picture, from 0 to 1 from its upper left corner, and what is to be seen there."""

    x: float
    y: float
    words: Prose


@dataclass(frozen=True, slots=True)
class Shot:
    """A picture with its numbered marks, or a film or a sound; which of them it is, its file tells."""

    file: str
    """As the notebook names it."""
    path: Path | None
    """Where it lies; None where the notebook has no such file."""
    alt: str
    caption: Prose
    words: Prose = NO_WORDS
    """What is seen and said, for who cannot see or hear it."""
    marks: tuple[PictureMark, ...] = ()
    tail: tuple[Prose, ...] = ()
    only: Only = EVERY


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictures(Block):
    """Pictures of the step, one under the other."""

    kind: ClassVar[str] = "pictures"
    shots: tuple[Shot, ...]


@dataclass(frozen=True, slots=True)
class FeelSide:
    """What good, or bad, is like."""

    good: bool
    head: Prose
    words: Prose
    shot: Shot | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel(Block):
    """Judged by hand, eye or ear: good beside bad."""

    kind: ClassVar[str] = "feel"
    sense: str
    ask: Prose
    sides: tuple[FeelSide, ...]
    how: tuple[Prose, ...] = ()
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop(Block):
    """When it is over; several stages come one after the other, unless each holds for a case of its own."""

    kind: ClassVar[str] = "stop"
    lead: str
    stages: tuple[Prose, ...]
    by_case: bool = False
    """Whether they exclude each other: one for each variant."""
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Back(Block):
    """Go back and do again."""

    kind: ClassVar[str] = "back"
    words: Prose
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True)
class Peril:
    """One hazard."""

    what: Prose
    harm: Prose = NO_WORDS
    avoid: Prose = NO_WORDS
    wear: tuple[Prose, ...] = ()
    away: tuple[Prose, ...] = ()
    age: Prose = NO_WORDS
    tail: tuple[Prose, ...] = ()
    only: Only = EVERY


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal(Block):
    """Hazards of one signal word in one frame."""

    kind: ClassVar[str] = "signal"
    word: str
    perils: tuple[Peril, ...]
    card: bool = False
    """At the head of a page, in few words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeverBlock(Block):
    """Prohibitions in one frame; each sentence begins with "Never" again, so that it stays true read alone."""

    kind: ClassVar[str] = "never"
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedWork(Block):
    """A shared procedure and what it brings along."""

    kind: ClassVar[str] = "uses"
    lead: Prose
    steps: tuple[Prose, ...]
    brings: tuple[Prose, ...]
    count: int = 0
    """How many steps it has there, those at the end with them."""
    takes: Prose = NO_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Questions(Block):
    """What is still to be asked."""

    kind: ClassVar[str] = "questions"
    items: tuple[Prose, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One step."""

    anchor: str
    number: int
    do: Prose
    only: Only = EVERY
    when: tuple[Prose, ...] = ()
    reasons: tuple[Prose, ...] = ()
    first: tuple[Block, ...] = ()
    """Hazards: told before the deed."""
    never: NeverBlock | None = None
    """What is forbidden to the whole work, its tools and materials, and bites first at this step."""
    brings: tuple[Signal, ...] = ()
    """What can hurt in the shared work that this step does."""
    blocks: tuple[Block, ...] = ()
