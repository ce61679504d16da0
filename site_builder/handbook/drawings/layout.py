"""The layered-graph engine, kept behind two plain functions.

The engine is graphlay (MIT or Apache-2.0): network-simplex ranks, crossing reduction and
network-simplex coordinates, deterministic for the same request. Kept behind one module so that the
rest of the drawings know nothing of its request format.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import graphlay

# How strongly a link wants to be short and straight.
ON_THE_LINE = 8.0
ACROSS = 1.0


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


def layers(ids: Sequence[str], links: Sequence[Link], pinned: Mapping[str, int] | None = None) -> dict[str, int]:
    """The row of each thing, 0 at the top, every link pointing down. `links` must have no circle.

    `pinned` things keep the row they are given; a thing without any link stands at the top."""
    held = pinned or {}
    graph = graphlay.Graph()
    for one in ids:
        graph.node(one, width=1, height=1, **({"rank": {"fixed": held[one]}} if one in held else {}))
    for tie in links:
        graph.edge(tie.above, tie.below, weight=tie.pull)
    # Only the ranks are wanted, so the engine is told to be quick about everything else.
    drawn = graphlay.layout(graph, options={"direction": "topbottom", "effort": "fast"})
    rows = {one: node["rank"] for one, node in zip(ids, drawn.nodes, strict=True)}
    return {one: int(row) if row is not None else held.get(one, 0) for one, row in rows.items()}


def spread(
    boxes: Sequence[Box],
    rows: Mapping[str, int],
    links: Sequence[Link],
    gap: float,
    within: float | None = None,
) -> dict[str, float]:
    """The x in px of the line through each box, neighbours in a row at least `gap` apart.

    Every link must reach from one row to the next. Lines are kept straight, at the cost of width;
    with `within` they are bent as far as it takes to keep to that many px, if the rows allow it."""
    graph = graphlay.Graph()
    for box in boxes:
        # The engine centres a node on its line and lets facing margins overlap, so the node takes the
        # smaller reach on both sides and the margin only the rest of the larger one, at the right.
        half = box.left + gap / 2
        rest = max(0.0, box.right - box.left)
        margin = {"along_neg": 0.0, "along_pos": 0.0, "cross_neg": 0.0, "cross_pos": rest}
        graph.node(box.id, width=2 * half, height=1, rank={"fixed": rows[box.id]}, margin=margin)
    for tie in links:
        graph.edge(tie.above, tie.below, weight=tie.pull)
    options: dict[str, object] = {
        "direction": "topbottom",
        "coords": {"placement": "network_simplex"},
        "spacing": {"node_gap": 0.0, "dummy_gap": 0.0, "isolated_gap": 0.0},
    }
    if within is not None:
        options["compaction"] = {"mode": "priority"}
    drawn = graphlay.layout(graph, options=options)
    x = {box.id: float(node["center"]["x"]) for box, node in zip(boxes, drawn.nodes, strict=True)}
    leftmost = min((x[box.id] - box.left for box in boxes), default=0.0)
    x = {one: place - leftmost for one, place in x.items()}
    return x if within is None else _squeezed(boxes, rows, x, gap, within)


def _squeezed(
    boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float], gap: float, within: float
) -> dict[str, float]:
    """`x` with each row's boxes shifted only as far as it takes to stand between 0 and `within`."""
    placed = dict(x)
    for row in _by_row(boxes, rows, x):
        edge = 0.0
        for box in row:
            placed[box.id] = max(placed[box.id], edge + box.left)
            edge = placed[box.id] + box.right + gap
        edge = within
        for box in reversed(row):
            placed[box.id] = min(placed[box.id], edge - box.right)
            edge = placed[box.id] - box.left - gap
    return placed


def _by_row(boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float]) -> list[list[Box]]:
    """The boxes of each row, from left to right."""
    by_row: dict[int, list[Box]] = {}
    for box in sorted(boxes, key=lambda box: x[box.id]):
        by_row.setdefault(rows[box.id], []).append(box)
    return list(by_row.values())


def crowded(boxes: Sequence[Box], rows: Mapping[str, int], x: Mapping[str, float]) -> bool:
    """Whether any two boxes of one row stand in each other's room, or one beyond the left edge."""
    for row in _by_row(boxes, rows, x):
        edge = 0.0
        for box in row:
            if x[box.id] - box.left < edge - 0.01:
                return True
            edge = x[box.id] + box.right
    return False


def width_of(boxes: Sequence[Box], x: Mapping[str, float]) -> float:
    """Room in px from the left edge to the furthest right one."""
    return max((x[box.id] + box.right for box in boxes), default=0.0)
