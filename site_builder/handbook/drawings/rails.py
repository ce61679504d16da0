"""Columns for the rails at the left of a tall drawing, where one stop has one row.

A stop's line keeps its column down to the next stop on it; a side way takes a column of its own for
the rows it passes. What would need more columns than there is room for is left to words.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.handbook.drawings.graph import Edge


@dataclass(frozen=True)
class Rails:
    """The column of each stop and of each rail; `said` are the edges left to words."""

    column: Mapping[str, int]
    rail: Mapping[Edge, int]
    said: tuple[Edge, ...]
    count: int


def rails(order: Sequence[str], edges: Sequence[Edge], main: Mapping[str, str], most: int) -> Rails:
    """Give out at most `most` columns; the longest side ways are the first to be left to words."""
    row = {stop: i for i, stop in enumerate(order)}

    def ease(edge: Edge) -> tuple[bool, int, int]:
        return (main[edge.source] != edge.target, row[edge.target] - row[edge.source], -row[edge.source])

    drawn = sorted(edges, key=ease)
    said: list[Edge] = []
    while True:
        found = _give_out(order, drawn, main)
        if found.count <= most or not drawn:
            return Rails(found.column, found.rail, tuple(said), found.count)
        # One edge less frees one column at the most.
        said += [drawn.pop() for _ in range(min(found.count - most, len(drawn)))]


def _give_out(order: Sequence[str], drawn: Sequence[Edge], main: Mapping[str, str]) -> Rails:
    row = {stop: i for i, stop in enumerate(order)}
    into: dict[str, list[Edge]] = defaultdict(list)
    out: dict[str, list[Edge]] = defaultdict(list)
    for edge in drawn:
        into[edge.target].append(edge)
        out[edge.source].append(edge)
    column: dict[str, int] = {}
    rail: dict[Edge, int] = {}
    held: set[int] = set()
    most = 0
    for stop in order:
        lines = sorted((main[e.source] != stop, rail[e]) for e in into[stop] if e in rail)
        here = lines[0][1] if lines else max(held, default=-1) + 1
        held -= {rail[e] for e in into[stop] if e in rail}
        held.add(here)
        column[stop] = here
        most = max(most, *held)
        leads_on = False
        for edge in sorted(out[stop], key=lambda e: (main[e.source] != e.target, row[e.target])):
            if main[stop] == edge.target:
                rail[edge] = here
                leads_on = True
            elif row[edge.target] > row[stop] + 1:
                rail[edge] = next(c for c in range(len(held) + 1) if c not in held)
                held.add(rail[edge])
                most = max(most, rail[edge])
        if not leads_on:
            held.discard(here)
    return Rails(column, rail, (), most + 1)
