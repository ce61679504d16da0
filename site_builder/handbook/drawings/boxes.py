"""Boxes in rows: what the layered layout is asked about, and small corrections that never let two
boxes of a row into each other's room."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

# How strongly a link wants to be short and straight.
ON_THE_LINE = 8.0
ACROSS = 1.0
STRAIGHT = 0.05  # px aside that nobody sees
_ROUNDS = 8
_A_BEND = 40.0  # px of way that one bend is worth


@dataclass(frozen=True)
class Link:
    """Something above is tied to something below; `pull` is its wish to be short and straight."""

    above: str
    below: str
    pull: float = ACROSS


@dataclass(frozen=True)
class Box:
    """Room in px that a thing needs left and right of the line through it; `right` counts as no less
    than `left`."""

    id: str
    left: float
    right: float


def squeezed(
    boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float], gap: float, within: float
) -> dict[str, float]:
    """`x` with each row's boxes shifted only as far as it takes to stand between 0 and `within`."""
    placed = dict(x)
    for row in by_row(boxes, rows, x):
        edge = 0.0
        for box in row:
            placed[box.id] = max(placed[box.id], edge + box.left)
            edge = placed[box.id] + box.right + gap
        edge = within
        for box in reversed(row):
            placed[box.id] = min(placed[box.id], edge - box.right)
            edge = placed[box.id] - box.left - gap
    return placed


def by_row(boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float]) -> list[list[Box]]:
    """The boxes of each row, from left to right."""
    by_row: dict[int, list[Box]] = {}
    for box in sorted(boxes, key=lambda box: x[box.id]):
        by_row.setdefault(rows[box.id], []).append(box)
    return list(by_row.values())


def crowded(boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float]) -> bool:
    """Whether any two boxes of one row stand in each other's room, or one beyond the left edge."""
    for row in by_row(boxes, rows, x):
        edge = 0.0
        for box in row:
            if x[box.id] - box.left < edge - 0.01:
                return True
            edge = x[box.id] + box.right
    return False


def fullest(boxes: Sequence[Box], rows: Mapping[str, int], gap: float) -> float:
    """Room in px that the fullest row needs at the least."""
    loads: dict[int, float] = {}
    for box in boxes:
        row = rows[box.id]
        loads[row] = loads.get(row, -gap) + box.left + max(box.left, box.right) + gap
    return max(loads.values(), default=0.0)


def width_of(boxes: Sequence[Box], x: Mapping[str, float]) -> float:
    """Room in px from the left edge to the furthest right one."""
    return max((x[box.id] + box.right for box in boxes), default=0.0)


def straightened(
    boxes: Sequence[Box],
    rows: Mapping[str, int],
    x: Mapping[str, float],
    links: Sequence[Link],
    gap: float,
    within: float,
) -> dict[str, float]:
    """`x` with whole pieces of line moved sideways, in the room they have, where that saves bends."""
    placed = dict(x)
    box_of = {box.id: box for box in boxes}
    touching: dict[str, list[int]] = {}
    for i, tie in enumerate(links):
        touching.setdefault(tie.above, []).append(i)
        touching.setdefault(tie.below, []).append(i)
    left: dict[str, Box] = {}
    right: dict[str, Box] = {}
    for row in by_row(boxes, rows, x):
        for a, b in pairwise(row):
            right[a.id], left[b.id] = b, a
    for _ in range(_ROUNDS):
        moved = False
        for line in _lines(boxes, rows, links, placed):
            low = max(
                (placed[n.id] + n.right + gap if (n := left.get(one)) else 0.0) + box_of[one].left - placed[one]
                for one in line
            )
            high = min(
                (placed[n.id] - n.left - gap if (n := right.get(one)) else within) - box_of[one].right - placed[one]
                for one in line
            )
            ends = _loose_ends(line, links, touching, placed)
            steps = {0.0} | {min(max(aside, low), high) for aside, _ in ends} if low <= high else {0.0}
            best = min(sorted(steps, key=abs), key=lambda step: round(_bend(ends, step), 3))
            if abs(best) > STRAIGHT:
                placed |= {one: placed[one] + best for one in line}
                moved = True
        if not moved:
            break
    return placed


def _lines(
    boxes: Sequence[Box], rows: Mapping[str, int], links: Iterable[Link], x: Mapping[str, float]
) -> list[frozenset[str]]:
    """Pieces of line: boxes tied upright by strong links, from the top down."""
    whole = {box.id: frozenset([box.id]) for box in boxes}
    for tie in links:
        if tie.pull >= ON_THE_LINE and abs(x[tie.above] - x[tie.below]) <= STRAIGHT:
            joined = whole[tie.above] | whole[tie.below]
            for one in joined:
                whole[one] = joined
    return sorted(dict.fromkeys(whole.values()), key=lambda line: min((rows[one], one) for one in line))


def _loose_ends(
    line: frozenset[str], links: Sequence[Link], touching: Mapping[str, Sequence[int]], x: Mapping[str, float]
) -> list[tuple[float, float]]:
    """How far aside each link out of `line` leads, in px, and its pull; `touching` are the links at each box."""
    ends = []
    for i in sorted({i for one in line for i in touching.get(one, ())}):
        tie = links[i]
        if (tie.above in line) != (tie.below in line):
            inner, outer = (tie.above, tie.below) if tie.above in line else (tie.below, tie.above)
            ends.append((x[outer] - x[inner], tie.pull))
    return ends


def _bend(ends: Iterable[tuple[float, float]], step: float) -> float:
    """The cost of the links out of a line moved by `step`: their way aside, and each bend as such."""
    return sum(pull * (abs(aside - step) + (_A_BEND if abs(aside - step) > STRAIGHT else 0)) for aside, pull in ends)
