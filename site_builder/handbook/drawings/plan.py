"""Where everything on the wide map goes: the roomiest way to stand side by side in a given width."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.handbook.drawings.boxes import STRAIGHT, crowded, fullest, width_of
from site_builder.handbook.drawings.flow import Flow, with_rows
from site_builder.handbook.drawings.graph import Loop
from site_builder.handbook.drawings.layout import spread
from site_builder.handbook.drawings.pieces import Pieces, Setting, cut

_ROOMIEST, _NARROWEST = 230.0, 104.0  # px for a label
_GAP = 10.0
STRIP = 12.0  # px between rows where all lines run straight down
_MOST_PIECES = 700  # beyond this nobody can follow lines side by side
_MOST_TRIED = 8000


@dataclass(frozen=True)
class Plan:
    """Pieces with their places. `free` holds, for each row, the heights between which no label stands."""

    pieces: Pieces
    x: Mapping[str, float]
    y: Mapping[int, float]
    up: Mapping[int, float]  # reach above its row of the tallest lane name
    free: Mapping[int, tuple[float, float]]
    height: float

    def at(self, one: str) -> tuple[float, float]:
        return self.x[one], self.y[self.pieces.by_id[one].row]


class _Patience:
    """How many more boxes may be laid out before the search gives up. Counted, not timed, so that the
    same work is drawn the same on every machine."""

    def __init__(self, boxes: int) -> None:
        self.left = boxes

    def spend(self, boxes: int) -> None:
        self.left -= boxes


def plan(flow: Flow, width: float) -> Plan | None:
    """Find places within `width` px, or None where the work is too broad to stand side by side.

    Lanes too many to stand abreast begin in bands, one band below the other."""
    patience = _Patience(_MOST_TRIED)
    heads = len(flow.heads)
    for abreast in range(max(1, min(heads, int(width / _NARROWEST))), 0, -1):
        patience.spend(len(flow.stops))
        staged = flow if abreast >= heads else with_rows(flow, _bands(flow, abreast))
        if sum(staged.rows[e.target] - staged.rows[e.source] for e in staged.edges) > _MOST_PIECES:
            return None
        for setting in Setting:
            found = _fit(staged, width, setting, patience)
            if found or patience.left <= 0:
                return found
    return None


def _fit(flow: Flow, width: float, setting: Setting, patience: _Patience) -> Plan | None:
    """The roomiest labels for which everything stands within `width`."""
    found = _place(flow, _ROOMIEST, setting, width, patience)
    if found:
        return found
    low, high = _NARROWEST, _ROOMIEST
    found = _place(flow, low, setting, width, patience)
    while found and high - low > 4:
        middle = (low + high) / 2
        better = _place(flow, middle, setting, width, patience)
        if better:
            low, found = middle, better
        else:
            high = middle
    return found


def _place(
    flow: Flow,
    room: float,
    setting: Setting,
    width: float,
    patience: _Patience,
    spoken: frozenset[Loop] = frozenset(),
) -> Plan | None:
    pieces = cut(flow, room, setting, spoken)
    boxes = [piece.box for piece in pieces.by_id.values()]
    rows = {piece.id: piece.row for piece in pieces.by_id.values()}
    if patience.left <= 0 or fullest(boxes, rows, _GAP) > width:
        return None
    patience.spend(len(boxes))
    within = width if setting is Setting.TIGHT else None
    x = spread(boxes, rows, pieces.links, _GAP, within)
    if width_of(boxes, x) > width or crowded(boxes, rows, x):
        return None
    # Beside a line that came out bent there is no room for a loop: it is said in words instead.
    bent = {loop for loop, way in pieces.loops.items() if max(x[s] for s in way) - min(x[s] for s in way) > STRAIGHT}
    if bent:
        return _place(flow, room, setting, width, patience, spoken | bent)
    x = _between(flow, pieces, x)
    y, free, height = _heights(pieces, x)
    heads: dict[int, float] = defaultdict(float)
    for piece in pieces.by_id.values():
        if piece.head:
            heads[piece.row] = max(heads[piece.row], piece.up)
    return Plan(pieces, x, y, heads, free, height)


def _between(flow: Flow, pieces: Pieces, x: Mapping[str, float]) -> dict[str, float]:
    """Move a line that begins with a join to stand between the lines that meet in it, if there is room."""
    moved = dict(x)
    edge_of_all = width_of([piece.box for piece in pieces.by_id.values()], x)
    sources: dict[str, list[str]] = defaultdict(list)
    for chain in pieces.chains:
        sources[chain.way[-1]].append(chain.way[-2])
    by_row: dict[int, list[str]] = defaultdict(list)
    for piece in pieces.by_id.values():
        by_row[piece.row].append(piece.id)
    begun = {edge.target for edge in flow.edges if flow.same_lane(edge.source, edge.target)}
    joins = (one for one in flow.stops if len(sources[one]) > 1 and one not in begun)
    for top in sorted(joins, key=lambda one: flow.rows[one]):
        line = _straight_down(flow, pieces, moved, top)
        meeting = [moved[one] for one in sources[top]]
        low, high = 0.0, edge_of_all
        for one in line:
            me = pieces.by_id[one]
            low, high = max(low, me.left), min(high, edge_of_all - me.right)
            for other in (pieces.by_id[neighbour] for neighbour in by_row[me.row] if neighbour != one):
                if moved[other.id] < moved[one]:
                    low = max(low, moved[other.id] + other.right + me.left + _GAP)
                else:
                    high = min(high, moved[other.id] - other.left - me.right - _GAP)
        if low <= high:
            moved |= dict.fromkeys(line, min(max((min(meeting) + max(meeting)) / 2, low), high))
    return moved


def _straight_down(flow: Flow, pieces: Pieces, x: Mapping[str, float], top: str) -> list[str]:
    """`top` and all that stands straight below it on the same line."""
    ways = {(chain.edge.source, chain.edge.target): chain.way for chain in pieces.chains}
    line, here = [top], top
    while (below := flow.main.get(here)) is not None and flow.same_lane(top, below):
        way = ways[here, below][1:]
        if any(abs(x[one] - x[top]) > STRAIGHT for one in way):
            break
        line += way
        here = below
    return line


def _heights(pieces: Pieces, x: Mapping[str, float]) -> tuple[dict[int, float], dict[int, tuple[float, float]], float]:
    """The height of each row, the free strip below it, and the height of all."""
    up: dict[int, float] = defaultdict(float)
    down: dict[int, float] = defaultdict(float)
    slant: dict[int, float] = defaultdict(float)
    for piece in pieces.by_id.values():
        up[piece.row] = max(up[piece.row], piece.up)
        down[piece.row] = max(down[piece.row], piece.down)
    for chain in pieces.chains:
        for a, b in zip(chain.way, chain.way[1:], strict=False):
            row = pieces.by_id[a].row
            slant[row] = max(slant[row], abs(x[a] - x[b]))
    y: dict[int, float] = {}
    free: dict[int, tuple[float, float]] = {}
    depth = 4.0
    for row in sorted(up):
        y[row] = depth + up[row]
        foot = y[row] + down[row]
        # The further aside a line goes, the more height its curve is given.
        depth = foot + (STRIP if slant[row] < STRAIGHT else min(86, 30 + slant[row] * 0.13))
        free[row] = (foot, depth)
    last = max(y, default=0)
    return y, free, (free[last][0] if free else depth) + 4


def _bands(flow: Flow, abreast: int) -> dict[str, int]:
    """How many rows further down each lane head begins when at most `abreast` lanes start together."""
    length: dict[str, int] = defaultdict(int)
    for head in flow.heads:
        here: str | None = head
        while here is not None and flow.same_lane(head, here):
            length[head] += 1
            here = flow.main.get(here)
    place = {lane: i for i, lane in enumerate(flow.lanes)}
    heads = sorted(flow.heads, key=lambda head: place[flow.heads[head]])
    starts: dict[str, int] = {}
    down = 0
    for i in range(0, len(heads), abreast):
        band = heads[i : i + abreast]
        starts |= dict.fromkeys(band, down)
        down += max(length[head] for head in band) + 1
    return starts
