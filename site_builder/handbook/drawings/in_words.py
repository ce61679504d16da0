"""The map of the work said in words: the same lanes, stops and joins, for ears, search and paper.

Nothing of the picture is missing here: a stop follows the one before it in its list unless `fresh`,
and whatever else leads to it, from it back, or is bought in for it is named.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from html import escape

from site_builder.handbook.drawings.flow import Flow, flow_of, reading_order
from site_builder.handbook.drawings.graph import Lane, Loop, Stop, WorkGraph


@dataclass(frozen=True)
class StopInWords:
    """One stop of the list. `after` are the stops that lead here other than the one listed before."""

    stop: Stop
    fresh: bool
    after: tuple[Stop, ...]
    bought: tuple[str, ...]
    loops: tuple[Loop, ...]
    remarks: tuple[str, ...]  # the same as sentences, plain text


@dataclass(frozen=True)
class LaneInWords:
    """A lane and its stops, each after what it needs."""

    lane: Lane
    stops: tuple[StopInWords, ...]


def work_in_words(graph: WorkGraph) -> tuple[LaneInWords, ...]:
    """The lanes of `graph` in the order written, without those that have no stop."""
    return in_words(flow_of(graph))


def in_words(flow: Flow) -> tuple[LaneInWords, ...]:
    by_lane: dict[str, list[str]] = defaultdict(list)
    for stop in reading_order(flow):
        by_lane[flow.stops[stop].lane].append(stop)
    return tuple(
        LaneInWords(lane, tuple(_stop(flow, by_lane[lane.id], i) for i in range(len(by_lane[lane.id]))))
        for lane in flow.lanes.values()
        if by_lane[lane.id]
    )


def words_html(lanes: tuple[LaneInWords, ...]) -> str:
    """The lanes as headings and ordered lists, in the stylesheet's `bl-route`."""
    out = ['<div class="bl-route">']
    for lane in lanes:
        # One block, so that no column and no page parts a lane; one heading, so that name and metal stay together.
        metal = f" <small>{escape(lane.lane.subtitle, quote=False)}</small>" if lane.lane.subtitle else ""
        out.append(f"<div><h3>{_linked(lane.lane.href, lane.lane.title)}{metal}</h3>")
        out.append("<ol>")
        for told in lane.stops:
            remarks = "".join(f" {escape(remark, quote=False)}" for remark in told.remarks)
            out.append(f"<li>{_linked(told.stop.href, told.stop.label)}{'.' + remarks if remarks else ''}</li>")
        out.append("</ol></div>")
    out.append("</div>")
    return "\n".join(out) + "\n"


def _linked(href: str, words: str) -> str:
    said = escape(words, quote=False)
    return f'<a href="{escape(href)}">{said}</a>' if href else said


def _stop(flow: Flow, order: list[str], i: int) -> StopInWords:
    stop = flow.stops[order[i]]
    sources = [edge.source for edge in flow.edges if edge.target == stop.id]
    before = order[i - 1] if i else ""
    fresh = before not in sources
    after = tuple(flow.stops[one] for one in sources if one != before)
    loops = tuple(loop for loop in flow.loops if loop.source == stop.id)
    bought = flow.bought.get(stop.id, ())
    return StopInWords(stop, fresh, after, bought, loops, _remarks(flow, stop, fresh, i, after, bought, loops))


def _remarks(
    flow: Flow,
    stop: Stop,
    fresh: bool,
    i: int,
    after: tuple[Stop, ...],
    bought: tuple[str, ...],
    loops: tuple[Loop, ...],
) -> tuple[str, ...]:
    remarks: list[str] = []
    if stop.outside:
        remarks.append("Done outside.")
    if after:
        names = "; ".join(_named(flow, one, stop) for one in after)
        remarks.append(f"Comes after: {names}." if fresh else f"Here joins what comes from: {names}.")
    elif fresh and i:
        remarks.append("Begins by itself.")
    if bought:
        remarks.append(f"Bought in: {', '.join(bought)}.")
    for loop in loops:
        often = f", {loop.words}" if loop.words else ""
        if loop.source == loop.target:
            remarks.append(f"Done again{often}.")
        else:
            remarks.append(f"Then back to {_named(flow, flow.stops[loop.target], stop)}{often}.")
    return tuple(remarks)


def _named(flow: Flow, one: Stop, seen_from: Stop) -> str:
    """A stop by name, with its lane when that is another one."""
    return one.label if one.lane == seen_from.lane else f"{one.label} ({flow.lanes[one.lane].title})"
