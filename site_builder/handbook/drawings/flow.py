"""A graph of work made ready to draw: circles opened, rows found, one main way out of each stop."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from site_builder.handbook.drawings.boxes import ACROSS, ON_THE_LINE, Link
from site_builder.handbook.drawings.graph import Edge, Lane, Loop, Stop, WorkGraph, has_circle
from site_builder.handbook.drawings.layout import layers

_HARDLY = 0.01
_RAW = "\0raw"  # what every lane begins with; not drawn


@dataclass(frozen=True)
class Flow:
    """The work without circles. `rows` count from 1; `main` is the stop a stop's line leads on to."""

    lanes: Mapping[str, Lane]
    stops: Mapping[str, Stop]
    edges: tuple[Edge, ...]
    loops: tuple[Loop, ...]
    bought: Mapping[str, tuple[str, ...]]
    rows: Mapping[str, int]
    main: Mapping[str, str]
    heads: Mapping[str, str]  # first stop of each lane that begins with raw metal → lane

    def is_main(self, edge: Edge) -> bool:
        return self.main.get(edge.source) == edge.target

    def same_lane(self, a: str, b: str) -> bool:
        return self.stops[a].lane == self.stops[b].lane

    def links(self) -> list[Link]:
        """All edges as the engine takes them: a part's own line is pulled straight."""
        return [Link(edge.source, edge.target, ON_THE_LINE if self._on_line(edge) else ACROSS) for edge in self.edges]

    def _on_line(self, edge: Edge) -> bool:
        return self.is_main(edge) and self.same_lane(edge.source, edge.target)


def flow_of(graph: WorkGraph) -> Flow:
    """Open the circles of `graph` and find the row of each stop."""
    edges, loops = _open_circles(graph)
    stops = {stop.id: stop for stop in graph.stops}
    main = _main_ways(edges, stops)
    heads = _heads(graph, edges)
    bought: dict[str, list[str]] = defaultdict(list)
    for thing in graph.bought:
        bought[thing.joins].append(thing.label)
    flow = Flow(
        lanes={lane.id: lane for lane in graph.lanes},
        stops=stops,
        edges=edges,
        loops=loops,
        bought={stop: tuple(labels) for stop, labels in bought.items()},
        rows={},
        main=main,
        heads=heads,
    )
    return with_rows(flow, {})


def with_rows(flow: Flow, starts: Mapping[str, int]) -> Flow:
    """`flow` with rows; the lane heads named in `starts` begin that many rows further down."""
    pinned = {_RAW: 0} | {head: 1 + down for head, down in starts.items()}
    tied = {end for edge in flow.edges for end in (edge.source, edge.target)} | set(flow.heads)
    reached = {edge.target for edge in flow.edges}
    # Lanes begin at the top; other beginnings only must not rise above it, and stand near their use.
    ties = flow.links() + [
        Link(_RAW, one, ON_THE_LINE if one in flow.heads else _HARDLY)
        for one in flow.stops
        if one not in starts and one not in reached
    ]
    rows = layers([_RAW, *flow.stops], ties, pinned)
    # A stop that nothing leads to or from stands below the stop written before it.
    before: dict[str, int] = {}
    for stop in flow.stops.values():
        if stop.id not in tied:
            rows[stop.id] = before.get(stop.lane, 0) + 1
        before[stop.lane] = max(before.get(stop.lane, 0), rows[stop.id])
    return Flow(
        lanes=flow.lanes,
        stops=flow.stops,
        edges=flow.edges,
        loops=flow.loops,
        bought=flow.bought,
        rows={stop: rows[stop] for stop in flow.stops},
        main=flow.main,
        heads=flow.heads,
    )


def reading_order(flow: Flow) -> tuple[str, ...]:
    """All stops, each after what it needs; a lane is told to its end before the next is begun."""
    needs: dict[str, int] = dict.fromkeys(flow.stops, 0)
    after: dict[str, list[str]] = defaultdict(list)
    for edge in flow.edges:
        needs[edge.target] += 1
        after[edge.source].append(edge.target)
    place = {stop: i for i, stop in enumerate(flow.stops)}
    lane_place = {lane: i for i, lane in enumerate(flow.lanes)}
    ready: dict[str, list[tuple[int, int, str]]] = defaultdict(list)  # of each lane, its stops by row

    def free(stop: str) -> None:
        heappush(ready[flow.stops[stop].lane], (flow.rows[stop], place[stop], stop))

    for stop, count in needs.items():
        if count == 0:
            free(stop)
    order: list[str] = []
    lane = ""
    while ready:
        lane = lane if lane in ready else min(ready, key=lane_place.__getitem__)
        stop = heappop(ready[lane])[2]
        if not ready[lane]:
            del ready[lane]
        order.append(stop)
        for below in after[stop]:
            needs[below] -= 1
            if needs[below] == 0:
                free(below)
    return tuple(order)


def _open_circles(graph: WorkGraph) -> tuple[tuple[Edge, ...], tuple[Loop, ...]]:
    """Edges that close a circle, in the order written, become loops without a count."""
    if not has_circle((edge.source, edge.target) for edge in graph.edges):
        return tuple(dict.fromkeys(graph.edges)), tuple(dict.fromkeys(graph.loops))
    after: dict[str, set[str]] = defaultdict(set)
    kept: list[Edge] = []
    loops = list(graph.loops)
    for edge in dict.fromkeys(graph.edges):
        if _reaches(after, edge.target, edge.source):
            if not any((loop.source, loop.target) == (edge.source, edge.target) for loop in loops):
                loops.append(Loop(edge.source, edge.target))
            continue
        after[edge.source].add(edge.target)
        kept.append(edge)
    return tuple(kept), tuple(dict.fromkeys(loops))


def _reaches(after: Mapping[str, set[str]], start: str, goal: str) -> bool:
    seen, to_see = {start}, [start]
    while to_see:
        here = to_see.pop()
        if here == goal:
            return True
        fresh = after.get(here, set()) - seen
        seen |= fresh
        to_see.extend(fresh)
    return False


def _main_ways(edges: Sequence[Edge], stops: Mapping[str, Stop]) -> dict[str, str]:
    """The stop each stop leads on to: in its own lane if it can, else the first one written."""
    main: dict[str, str] = {}
    for edge in edges:
        held = main.get(edge.source)
        lane = stops[edge.source].lane
        if held is None or (stops[held].lane != lane and stops[edge.target].lane == lane):
            main[edge.source] = edge.target
    return main


def _heads(graph: WorkGraph, edges: Sequence[Edge]) -> dict[str, str]:
    reached = {edge.target for edge in edges}
    heads: dict[str, str] = {}
    for stop in graph.stops:
        if stop.id not in reached and stop.lane not in heads.values():
            heads[stop.id] = stop.lane
    return heads
