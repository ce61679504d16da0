"""What stands side by side on the wide map: stops, and lines passing other rows.

Each piece knows the room it needs around the point where its line runs, in px, so that the layout
can keep neighbours apart. Sizes are taken at the largest the stylesheet sets them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, auto
from itertools import pairwise

from site_builder.handbook.drawings.boxes import ACROSS, ON_THE_LINE, Box, Link
from site_builder.handbook.drawings.flow import Flow
from site_builder.handbook.drawings.graph import Edge, Loop, Stop
from site_builder.handbook.drawings.lettering import widest, wrap

LABEL, SMALL, TITLE = 19.0, 16.5, 25.0  # px, as on a tablet at the bench
LABEL_PITCH, SMALL_PITCH, TITLE_PITCH = 20.0, 18.0, 26.0
TEXT_FROM_LINE = 18.0
TOUCH = 23.0  # half the height a finger needs
_MARK_ROOM = 14.0
_LOOP_BULGE = 36.0
BOUGHT_REACH = 44.0
_BOUGHT_ROOM = 150.0
_AIR = 6.0
LOOP_ROOM = 76.0
HEAD = 34.0  # px from the bar where a line begins down to its first mark
_PASSING = 5.0


@dataclass(frozen=True)
class Piece:
    """One thing on one row; `up`, `down`, `left`, `right` are its reach around its line in px."""

    id: str
    row: int
    left: float
    right: float
    up: float = 0.0
    down: float = 0.0
    stop: Stop | None = None
    head: bool = False  # whether the line of its lane begins here, with a bar
    title: tuple[str, ...] = ()
    subtitle: tuple[str, ...] = ()
    label: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    bought: tuple[str, ...] = ()

    @property
    def box(self) -> Box:
        return Box(self.id, self.left, self.right)


class Setting(Enum):
    """How closely things are set. `EVEN`: lanes the same room. `FREE`: each what it needs.
    `TIGHT`: lines may bend, and what is bought in is written under its stop."""

    EVEN = auto()
    FREE = auto()
    TIGHT = auto()


@dataclass(frozen=True)
class Chain:
    """An edge as the row-by-row way it takes: its source, the rows it passes, its target."""

    edge: Edge
    way: tuple[str, ...]


@dataclass(frozen=True)
class Pieces:
    """Everything to place: pieces by id, chains, loops drawn at the side, and the ties between."""

    by_id: Mapping[str, Piece]
    chains: tuple[Chain, ...]
    loops: Mapping[Loop, tuple[str, ...]]  # with the stops beside which each runs
    links: tuple[Link, ...]


def cut(flow: Flow, room: float, setting: Setting, spoken: frozenset[Loop] = frozenset()) -> Pieces:
    """Cut `flow` into pieces, labels broken at `room` px; the loops `spoken` are said in words."""
    beside, in_words = _loops(flow, spoken)
    pieces: dict[str, Piece] = {}
    titled = {
        lane: min((s.id for s in flow.stops.values() if s.lane == lane), key=lambda one: flow.rows[one])
        for lane in dict.fromkeys(s.lane for s in flow.stops.values())
    }
    titled |= {lane: head for head, lane in flow.heads.items()}
    for lane in flow.lanes:
        for stop in sorted((s for s in flow.stops.values() if s.lane == lane), key=lambda s: flow.rows[s.id]):
            title = titled[lane] == stop.id
            pieces[stop.id] = _stop_piece(flow, stop, room, setting, beside, in_words.get(stop.id, ()), title)
    chains: list[Chain] = []
    links: list[Link] = []
    for edge in flow.edges:
        first, last = flow.rows[edge.source], flow.rows[edge.target]
        bends = tuple(f"\0{edge.source}\0{edge.target}\0{row}" for row in range(first + 1, last))
        for bend, row in zip(bends, range(first + 1, last), strict=True):
            pieces[bend] = Piece(bend, row, left=_PASSING, right=_PASSING)
        way = (edge.source, *bends, edge.target)
        chains.append(Chain(edge, way))
        line = flow.is_main(edge)
        for a, b in pairwise(way):
            straight = (line or a != edge.source) and (b != edge.target or flow.same_lane(edge.source, edge.target))
            links.append(Link(a, b, ON_THE_LINE if straight else ACROSS))
    return Pieces(pieces, tuple(chains), beside, tuple(links))


def _stop_piece(
    flow: Flow,
    stop: Stop,
    room: float,
    setting: Setting,
    beside: Mapping[Loop, tuple[str, ...]],
    loop_notes: tuple[str, ...],
    titled: bool,
) -> Piece:
    label = wrap(stop.label, LABEL, room)
    things = flow.bought.get(stop.id, ())
    bought: tuple[str, ...] = ()
    # Beside a loop the left of the line is taken.
    if things and (setting is Setting.TIGHT or any(stop.id in way for way in beside.values())):
        loop_notes = (bought_words(things), *loop_notes)
    elif things:
        bought = ("Bought in:", *wrap(", ".join(things), SMALL, _BOUGHT_ROOM))
    notes = tuple(line for note in loop_notes for line in wrap(note, SMALL, room))
    lane = flow.lanes[stop.lane]
    head = stop.id in flow.heads
    name_room = room + (TEXT_FROM_LINE if head else 0.0)
    title = wrap(lane.title, TITLE, name_room) if titled else ()
    subtitle = wrap(lane.subtitle, SMALL, name_room) if titled else ()
    left = _MARK_ROOM
    for loop, way in beside.items():
        if stop.id in way:
            words = wrap(loop.words, SMALL, LOOP_ROOM)
            left = max(left, _LOOP_BULGE + widest(words, SMALL) + _AIR)
    if bought:
        left += BOUGHT_REACH + widest(bought, SMALL)
    name = max(widest(title, TITLE), widest(subtitle, SMALL)) - (TEXT_FROM_LINE if head else 0.0)
    text = max(widest(label, LABEL), widest(notes, SMALL), name)
    half = max(TOUCH, len(label) * LABEL_PITCH / 2 + 4, len(bought) * SMALL_PITCH / 2 + 2)
    above = len(title) * TITLE_PITCH + len(subtitle) * SMALL_PITCH + (4 if title else 0)
    return Piece(
        id=stop.id,
        row=flow.rows[stop.id],
        left=left,
        right=TEXT_FROM_LINE + max(text, room if setting is Setting.EVEN else 0.0) + _AIR,
        up=(HEAD + 16 if head else half) + above,
        down=max(half, len(label) * LABEL_PITCH / 2 + len(notes) * SMALL_PITCH + 4),
        stop=stop,
        head=head,
        title=title,
        subtitle=subtitle,
        label=label,
        notes=notes,
        bought=bought,
    )


def _loops(flow: Flow, spoken: frozenset[Loop]) -> tuple[dict[Loop, tuple[str, ...]], dict[str, tuple[str, ...]]]:
    """Loops that run up one line beside free rows are drawn there; the others are said in words."""
    beside: dict[Loop, tuple[str, ...]] = {}
    notes: dict[str, tuple[str, ...]] = {}
    taken: set[str] = set()
    for loop in flow.loops:
        way = _line_between(flow, loop.target, loop.source)
        if len(way) > 1 and loop not in spoken and not taken & set(way):
            beside[loop] = way
            taken |= set(way)
        else:
            notes[loop.source] = (*notes.get(loop.source, ()), loop_words(flow, loop))
    return beside, notes


def bought_words(things: Sequence[str]) -> str:
    """What is bought in, to stand small under the stop at which it joins."""
    return f"bought in: {', '.join(things)}"


def loop_words(flow: Flow, loop: Loop) -> str:
    """A loop said in words, to stand under the stop it leaves."""
    if loop.source == loop.target:
        return f"done again, {loop.words}" if loop.words else "done again"
    back = f"back to {flow.stops[loop.target].label}"
    return f"{back}, {loop.words}" if loop.words else back


def _line_between(flow: Flow, top: str, bottom: str) -> tuple[str, ...]:
    """The stops of one lane from `top` down to `bottom`, row after row; empty if there is no such line."""
    way = [top]
    while way[-1] != bottom:
        below = flow.main.get(way[-1])
        if below is None or not flow.same_lane(top, below) or flow.rows[below] != flow.rows[way[-1]] + 1:
            return ()
        way.append(below)
    return tuple(way)
