"""What there is to draw: stops of work on lanes, and people who taught each other.

A lane is a part on its way from raw metal; a stop is one procedure; an edge says that one stop
follows another; a loop says that the work goes back. The objects check themselves: an edge to a
stop that is not there is a `ValueError` naming it, never a gap in the picture.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter


@dataclass(frozen=True)
class Lane:
    """A part: the line its stops stand on. `subtitle` is set small, for example its metal."""

    id: str
    title: str
    subtitle: str = ""
    href: str = ""


@dataclass(frozen=True)
class Stop:
    """One procedure. `outside` marks work done by another shop: a diamond instead of a ring."""

    id: str
    label: str
    href: str
    lane: str
    outside: bool = False


@dataclass(frozen=True)
class Edge:
    """The stop `target` follows the stop `source`."""

    source: str
    target: str


@dataclass(frozen=True)
class Loop:
    """From `source` the work goes back to `target`; `words` say how often (2 or 3 times)."""

    source: str
    target: str
    words: str = ""


@dataclass(frozen=True)
class Bought:
    """A thing bought in, and the stop at which it joins."""

    label: str
    joins: str


@dataclass(frozen=True)
class WorkGraph:
    """The whole way of the work. Raises `ValueError` where an id is unknown or told twice."""

    lanes: tuple[Lane, ...]
    stops: tuple[Stop, ...]
    edges: tuple[Edge, ...] = ()
    loops: tuple[Loop, ...] = ()
    bought: tuple[Bought, ...] = ()

    def __post_init__(self) -> None:
        lanes = _once("lane", (lane.id for lane in self.lanes))
        stops = _once("stop", (stop.id for stop in self.stops))
        for stop in self.stops:
            _known("lane", stop.lane, lanes, f"stop “{stop.id}”")
        for edge in self.edges:
            for end in (edge.source, edge.target):
                _known("stop", end, stops, f"edge “{edge.source}” to “{edge.target}”")
        for loop in self.loops:
            for end in (loop.source, loop.target):
                _known("stop", end, stops, f"loop “{loop.source}” to “{loop.target}”")
        for thing in self.bought:
            _known("stop", thing.joins, stops, f"bought “{thing.label}”")


@dataclass(frozen=True)
class Person:
    """Somebody of the shop; `years` as printed under the name; without `href` the name is no link."""

    id: str
    name: str
    years: str = ""
    href: str = ""


@dataclass(frozen=True)
class Taught:
    """`teacher` taught `learner` what `words` name (casting, grinding)."""

    teacher: str
    learner: str
    words: str = ""


def people_known(people: Iterable[Person], taught: Iterable[Taught]) -> None:
    """Raise `ValueError` where somebody is told twice or a lesson names a stranger."""
    ids = _once("person", (person.id for person in people))
    for lesson in taught:
        for end in (lesson.teacher, lesson.learner):
            _known("person", end, ids, f"lesson “{lesson.teacher}” to “{lesson.learner}”")


def has_circle(pairs: Iterable[tuple[str, str]]) -> bool:
    """Whether one comes back to where one was by going from the first of a pair to the second."""
    after: TopologicalSorter[str] = TopologicalSorter()
    for above, below in pairs:
        after.add(below, above)
    try:
        after.prepare()
    except CycleError:
        return True
    return False


def _once(kind: str, ids: Iterable[str]) -> frozenset[str]:
    seen: set[str] = set()
    for one in ids:
        if one in seen:
            raise ValueError(f"the {kind} “{one}” is told twice")
        seen.add(one)
    return frozenset(seen)


def _known(kind: str, one: str, ids: frozenset[str], where: str) -> None:
    if one not in ids:
        raise ValueError(f"{where}: there is no {kind} “{one}”")
