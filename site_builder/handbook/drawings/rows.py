"""The tall drawing: one stop a row, its words at the right, the lines as rails at the left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.handbook.drawings import pen
from site_builder.handbook.drawings.flow import Flow, reading_order
from site_builder.handbook.drawings.graph import Edge, Loop
from site_builder.handbook.drawings.lettering import widest, wrap
from site_builder.handbook.drawings.pieces import bought_words, loop_words
from site_builder.handbook.drawings.rails import Rails, rails

_LABEL_PITCH, _SMALL_PITCH, _TITLE_PITCH = 20.0, 18.0, 25.0
_RING = 6.0
_ROOMIEST = 420.0
_PITCH = 17.0
_LEAST_PITCH = 10.0
_BRACKET = 10.0
_BRACKETS = 3


@dataclass(frozen=True)
class Type:
    """Type sizes in px at the largest the stylesheet sets a kind of drawing."""

    label: float
    small: float
    title: float


PHONE = Type(17.0, 14.0, 23.0)
TABLET = Type(19.0, 16.5, 25.0)
TABLET_LINEAGE = Type(17.0, 15.5, 23.0)


@dataclass(frozen=True)
class Row:
    """A stop on its row: what is written and where."""

    stop: str
    y: float
    head: float  # where the lane's name begins, or 0
    title: tuple[str, ...]
    subtitle: tuple[str, ...]
    label: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Sheet:
    """The whole tall drawing ready to be inked."""

    rows: tuple[Row, ...]
    rails: Rails
    pitch: float
    text_x: float
    brackets: tuple[tuple[Loop, int], ...]
    width: float
    height: float
    type: Type

    def x(self, column: int) -> float:
        return 10 + column * self.pitch


def sheet(flow: Flow, width: float, type_: Type, small: Mapping[str, tuple[str, ...]] | None = None) -> Sheet:
    """Lay `flow` out one stop a row in `width` px. Always possible.

    `small` are the notes under the stops, in place of those that `flow` itself gives rise to."""
    order = reading_order(flow)
    rail_room = 0.36 * width
    found = rails(order, flow.edges, flow.main, int(rail_room / _LEAST_PITCH) + 1)
    pitch = min(_PITCH, rail_room / max(1, found.count - 1))
    text_x = 10 + (found.count - 1) * pitch + 23
    brackets, spoken = _brackets(flow, order)
    levels = 1 + max((level for _, level in brackets), default=-1)
    room = min(_ROOMIEST, width - text_x - 6 - (levels * _BRACKET + 14 if levels else 0))
    notes = small or _notes(flow, found.said, brackets, spoken)
    bent = {e.target for e in found.rail if found.column[e.source] != found.column[e.target]}
    rows: list[Row] = []
    depth, lane, told = 0.0, "", set[str]()
    for i, stop in enumerate(order):
        here = flow.stops[stop]
        title: tuple[str, ...] = ()
        subtitle: tuple[str, ...] = ()
        head = 0.0
        if here.lane != lane:
            lane = here.lane
            head = depth + (20 if rows else 0)
            title = wrap(flow.lanes[lane].title, type_.title, room, cut=True)
            subtitle = wrap("further on" if lane in told else flow.lanes[lane].subtitle, type_.small, room, cut=True)
            depth = head + len(title) * _TITLE_PITCH + len(subtitle) * _SMALL_PITCH + 6
            told.add(lane)
        label = wrap(here.label, type_.label, room, cut=True)
        below = tuple(line for note in notes.get(stop, ()) for line in wrap(note, type_.small, room, cut=True))
        if i and stop in bent:
            depth += 14  # room for the curves that come in
        half = max(24.0, len(label) * _LABEL_PITCH / 2 + 6)
        rows.append(Row(stop, depth + half, head, title, subtitle, label, below))
        depth += half + max(half, len(label) * _LABEL_PITCH / 2 + len(below) * _SMALL_PITCH + 10)
    return Sheet(tuple(rows), found, pitch, text_x, brackets, width, depth + 4, type_)


def inked(flow: Flow, page: Sheet) -> list[str]:
    """The strokes: rails, then brackets of loops, then each row's name, mark and words."""
    y = {row.stop: row.y for row in page.rows}
    order = [row.stop for row in page.rows]
    place = {stop: i for i, stop in enumerate(order)}
    said = set(page.rails.said)
    by_weight = sorted((e for e in flow.edges if e not in said), key=flow.is_main)
    strokes = [_rail(flow, page, edge, order, place, y) for edge in by_weight]
    strokes += [_bracket(page, loop, level) for loop, level in page.brackets]
    for row in page.rows:
        stop = flow.stops[row.stop]
        x = page.x(page.rails.column[row.stop])
        if row.title:
            strokes += _lane_name(flow, page, row)
        if row.stop in flow.heads:
            top = row.y - 26
            strokes.append(pen.path(f"M{pen.number(x)} {pen.number(top)}V{pen.number(row.y)}", "stream"))
            strokes.append(pen.path(f"M{pen.number(x - 6)} {pen.number(top)}h12", "l heavy"))
        half = max(23.0, len(row.label) * _LABEL_PITCH / 2 + 5)
        leader = f"M{pen.number(x + 8)} {pen.number(row.y)}H{pen.number(page.text_x - 6)}"
        first = row.y + 5 - (len(row.label) - 1) * _LABEL_PITCH / 2
        body = pen.path(leader, "l thin dash") + pen.mark(x, row.y, stop.outside, _RING)
        body += pen.text(page.text_x, first, row.label, "st", _LABEL_PITCH)
        hit = pen.rect(0, row.y - half, page.width - 4, 2 * half, "hit")
        strokes.append(pen.link(stop.href, body, hit, f"{stop.label}, done outside" if stop.outside else ""))
        if row.notes:
            below = row.y + len(row.label) * _LABEL_PITCH / 2 + 12
            strokes.append(pen.text(page.text_x, below, row.notes, "sub", _SMALL_PITCH))
    return strokes


def _lane_name(flow: Flow, page: Sheet, row: Row) -> list[str]:
    deep = len(row.title) * _TITLE_PITCH
    hit = pen.rect(page.text_x - 8, row.head, page.width - page.text_x + 4, max(24.0, deep), "hit")
    title = pen.text(page.text_x, row.head + 19, row.title, "lane", _TITLE_PITCH)
    strokes = [pen.link(flow.lanes[flow.stops[row.stop].lane].href, title, hit)]
    if row.subtitle:
        strokes.append(pen.text(page.text_x, row.head + deep + 13, row.subtitle, "sub", _SMALL_PITCH))
    return strokes


def _rail(
    flow: Flow, page: Sheet, edge: Edge, order: Sequence[str], place: Mapping[str, int], y: dict[str, float]
) -> str:
    """Down from one stop to another: out below the one, in above the other, straight between."""
    i, j = place[edge.source], place[edge.target]
    x1, x2 = page.x(page.rails.column[edge.source]), page.x(page.rails.column[edge.target])
    y1, y2 = y[edge.source], y[edge.target]
    between = page.x(page.rails.rail[edge]) if edge in page.rails.rail else x1
    way = f"M{pen.number(x1)} {pen.number(y1)}"
    if between != x1:
        foot = min(y[order[i + 1]] - 9, y1 + 52)
        way += f"V{pen.number(y1 + 7)}{pen.curve(x1, y1 + 7, between, foot)}"
    if between != x2:
        top = max(y[order[j - 1]] + 9, y2 - 52)
        way += f"V{pen.number(top)}{pen.curve(between, top, x2, y2 - 5)}"
    way += f"V{pen.number(y2)}"
    return pen.path(way, "stream" if flow.is_main(edge) else "stream thinner")


def _brackets(flow: Flow, order: Sequence[str]) -> tuple[tuple[tuple[Loop, int], ...], tuple[Loop, ...]]:
    """Loops drawn as brackets at the right, each with its distance; and those left to words."""
    row = {stop: i for i, stop in enumerate(order)}
    drawn: list[tuple[Loop, int]] = []
    spoken: list[Loop] = []
    for loop in sorted(flow.loops, key=lambda one: row[one.source] - row[one.target]):
        span = range(row[loop.target], row[loop.source] + 1)
        near = [level for other, level in drawn if _meet(span, row[other.target], row[other.source])]
        level = next(n for n in range(len(near) + 1) if n not in near)
        if len(span) > 1 and level < _BRACKETS:
            drawn.append((loop, level))
        else:
            spoken.append(loop)
    return tuple(drawn), tuple(spoken)


def _meet(span: range, first: int, last: int) -> bool:
    return span.start <= last and first < span.stop


def _bracket(page: Sheet, loop: Loop, level: int) -> str:
    """From the right of the lower stop's words up to the right of the upper's, an arrow at its end."""
    place = {row.stop: i for i, row in enumerate(page.rows)}
    first, last = place[loop.target], place[loop.source]
    low, high = page.rows[last], page.rows[first]
    ends = [page.text_x + widest(row.label, page.type.label) + 7 for row in (low, high)]
    passed = (
        max(
            widest(row.label, page.type.label),
            widest(row.notes, page.type.small),
            widest(row.title, page.type.title),
            widest(row.subtitle, page.type.small),
        )
        for row in page.rows[first : last + 1]
    )
    x = min(page.text_x + max(passed) + 24, page.width - 5 - (_BRACKETS - 1) * _BRACKET) + level * _BRACKET
    y1, y2 = low.y - 3, high.y + 3
    way = f"M{pen.number(ends[0])} {pen.number(y1)}H{pen.number(x - 8)}q8 0 8-8"
    way += f"V{pen.number(y2 + 8)}q0-8-8-8H{pen.number(ends[1])}"
    head = f"M{pen.number(ends[1] + 7)} {pen.number(y2 - 5)}l-7 5 7 5"
    return pen.path(way, "l thin") + pen.path(head, "l thin")


def _notes(
    flow: Flow, said: Sequence[Edge], brackets: Sequence[tuple[Loop, int]], spoken: Sequence[Loop]
) -> dict[str, tuple[str, ...]]:
    """What stands small under a stop: what is bought in, how often a loop runs, ways left to words."""
    notes: dict[str, tuple[str, ...]] = {stop: (bought_words(things),) for stop, things in flow.bought.items()}
    for loop, _ in brackets:
        if loop.words:
            notes[loop.source] = (*notes.get(loop.source, ()), loop.words)
    for loop in spoken:
        notes[loop.source] = (*notes.get(loop.source, ()), loop_words(flow, loop))
    for edge in said:
        come = f"comes from {flow.stops[edge.source].label}"
        notes[edge.target] = (*notes.get(edge.target, ()), come)
    return notes
