"""What stands on the page of a procedure: plain values, in the order in which the template sets them.

A block knows for whom it holds (``only``) and why (``reasons``, set in the margin where there is one);
everything else is words that are safe to print.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar

from markupsafe import Markup

NO_WORDS = Markup("")


@dataclass(frozen=True, slots=True)
class Only:
    """For which variant a thing holds: in words, and as what the reader's choice is compared with."""

    words: Markup = NO_WORDS
    values: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


EVERY = Only()


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Anything below the sentence of a step, or of the procedure as a whole."""

    kind: ClassVar[str] = ""
    only: Only = EVERY
    reasons: tuple[Markup, ...] = ()
    anchor: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said(Block):
    """A line of its own: a label in the voice of gauges, and words."""

    kind: ClassVar[str] = "said"
    label: str
    words: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One of several: a point, a setting, an act in between."""

    words: Markup
    lead: Markup = NO_WORDS
    reasons: tuple[Markup, ...] = ()
    only: Only = EVERY
    anchor: str = ""
    tail: tuple[Markup, ...] = ()
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Points(Block):
    """What makes or breaks the work, each with its reason."""

    kind: ClassVar[str] = "points"
    items: tuple[Item, ...]


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
class Side:
    """One side of a gauge line: from where on, and what then."""

    words: Markup
    then: Markup = NO_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge(Block):
    """A limit or a window on one line: too little, right, too much."""

    kind: ClassVar[str] = "gauge"
    what: Markup
    value: Markup = NO_WORDS
    other: str = ""
    how: tuple[Markup, ...] = ()
    low: Side | None = None
    good: Side | None = None
    high: Side | None = None
    of_time: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table and for whom it holds."""

    cells: tuple[Markup, ...]
    only: Only = EVERY
    anchor: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid(Block):
    """A small table."""

    kind: ClassVar[str] = "grid"
    caption: Markup
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    tail: tuple[Markup, ...] = ()


@dataclass(frozen=True, slots=True)
class Shot:
    """A picture with its numbered marks, or a film or a sound."""

    kind: str
    element: Markup
    caption: Markup
    marks: tuple[tuple[float, float, Markup], ...] = ()
    tail: tuple[Markup, ...] = ()
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
    head: Markup
    words: Markup
    shot: Shot | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel(Block):
    """Judged by hand, eye or ear: good beside bad."""

    kind: ClassVar[str] = "feel"
    sense: str
    ask: Markup
    sides: tuple[FeelSide, ...]
    how: tuple[Markup, ...] = ()
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop(Block):
    """When it is over; several stages come one after the other."""

    kind: ClassVar[str] = "stop"
    lead: str
    stages: tuple[Markup, ...]
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Back(Block):
    """Go back and do again."""

    kind: ClassVar[str] = "back"
    words: Markup
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True)
class Peril:
    """One hazard."""

    what: Markup
    harm: Markup = NO_WORDS
    avoid: Markup = NO_WORDS
    wear: tuple[Markup, ...] = ()
    away: tuple[Markup, ...] = ()
    age: Markup = NO_WORDS
    tail: tuple[Markup, ...] = ()
    only: Only = EVERY


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal(Block):
    """Hazards of one signal word in one frame."""

    kind: ClassVar[str] = "signal"
    word: str
    perils: tuple[Peril, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Never(Block):
    """Prohibitions in one frame; each sentence begins with "Never" again, so that it stays true read alone."""

    kind: ClassVar[str] = "never"
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Uses(Block):
    """A shared procedure and what it brings along."""

    kind: ClassVar[str] = "uses"
    lead: Markup
    steps: tuple[Markup, ...]
    brings: tuple[Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Questions(Block):
    """What is still to be asked."""

    kind: ClassVar[str] = "questions"
    items: tuple[Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One step."""

    anchor: str
    number: int
    do: Markup
    only: Only = EVERY
    when: tuple[Markup, ...] = ()
    reasons: tuple[Markup, ...] = ()
    first: tuple[Block, ...] = ()
    """Hazards: told before the deed."""
    blocks: tuple[Block, ...] = ()
