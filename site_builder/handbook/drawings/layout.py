"""The layered-graph engine, kept behind two plain functions.

The engine is graphlay (MIT or Apache-2.0): network-simplex ranks, crossing reduction and
network-simplex coordinates, deterministic for the same request. Kept behind one module so that the
rest of the drawings know nothing of its request format.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from graphlib import TopologicalSorter

import graphlay

from site_builder.handbook.drawings.boxes import Box, Link, squeezed, straightened

_RANKED = 400
"""Of more things than this the engine's search for the shortest lines takes minutes; each then stands right under the
lowest of what leads to it."""


def layers(ids: Sequence[str], links: Sequence[Link], pinned: Mapping[str, int] | None = None) -> dict[str, int]:
    """The row of each thing, 0 at the top, every link pointing down. `links` must have no circle.

    `pinned` things keep the row they are given; a thing without any link stands at the top."""
    held = pinned or {}
    if len(ids) > _RANKED:
        return _longest_ways(ids, links, held)
    graph = graphlay.Graph()
    for one in ids:
        graph.node(one, width=1, height=1, rank={"fixed": held[one]} if one in held else "free")
    for tie in links:
        graph.edge(tie.above, tie.below, weight=tie.pull)
    # Only the ranks are wanted, so the engine is told to be quick about everything else.
    quick = {"direction": "topbottom", "effort": "fast", "coords": {"placement": "brandes_koepf"}}
    drawn = graphlay.layout(graph, options=quick)
    rows = {one: node["rank"] for one, node in zip(ids, drawn.nodes, strict=True)}
    return {one: int(row) if row is not None else held.get(one, 0) for one, row in rows.items()}


def _longest_ways(ids: Sequence[str], links: Sequence[Link], held: Mapping[str, int]) -> dict[str, int]:
    above: dict[str, list[str]] = {one: [] for one in ids}
    for tie in links:
        above[tie.below].append(tie.above)
    rows: dict[str, int] = {}
    for one in TopologicalSorter(above).static_order():
        rows[one] = held.get(one, max((rows[other] + 1 for other in above[one]), default=0))
    return {one: rows[one] for one in ids}


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
    if within is None:
        return x
    return straightened(boxes, rows, squeezed(boxes, rows, x, gap, within), links, gap, within)
