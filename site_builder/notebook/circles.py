"""Circles among things that lead to one another."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from typing import TypeVar

N = TypeVar("N", bound=Hashable)
E = TypeVar("E")


def circles(edges: Mapping[N, Sequence[tuple[N, E]]]) -> Iterator[tuple[E, ...]]:
    """Every circle that following the edges meets, each once, closed by its last edge.

    ``edges`` tells of each thing where it leads, and by what; what leads nowhere may be left out.
    """
    done: set[N] = set()
    for root in edges:
        if root in done:
            continue
        trail: list[E] = []
        open_ = {root: 0}
        """The things on the way, with the number of edges that led there; a dict keeps the order."""
        rest = [iter(edges[root])]
        while rest:
            step = next(rest[-1], None)
            if step is None:
                rest.pop()
                done.add(open_.popitem()[0])
                if trail:
                    trail.pop()
                continue
            thing, edge = step
            if thing in open_:
                yield (*trail[open_[thing]:], edge)
            elif thing not in done:
                trail.append(edge)
                open_[thing] = len(trail)
                rest.append(iter(edges.get(thing, ())))
