"""Places for the lineage: generations from the layered engine, thinned out to fit a width.

The words of a lesson are a piece of their own on the row above the pupil, so the engine keeps them
clear of names and of each other just as it keeps names apart.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.handbook.drawings.graph import Person, Taught
from site_builder.handbook.drawings.layout import ACROSS, Box, Link, crowded, layers, spread, width_of
from site_builder.handbook.drawings.lettering import widest, wrap

NAME, SMALL = 17.0, 15.5  # px, at the largest the stylesheet sets them
NAME_PITCH, SMALL_PITCH = 20.0, 17.0
GAP = 14.0
_PASSING = 6.0
_NAME_ROOM = 170.0
_TOUCH = 46.0
_TRIES = 6
_STRAIGHT_DOWN = 3.0


@dataclass(frozen=True)
class Piece:
    """A name, a lesson's words, or a line passing a row: size in px, row, and what is written."""

    id: str
    row: int
    width: float
    height: float
    lines: tuple[str, ...] = ()
    small: tuple[str, ...] = ()
    person: Person | None = None


@dataclass(frozen=True)
class Way:
    """A lesson's way down the rows; `up` where the pupil is drawn above the teacher."""

    stations: tuple[str, ...]
    up: bool


@dataclass(frozen=True)
class Tree:
    """Pieces, ways and the x of each piece's middle; `width` is the room they take."""

    pieces: Mapping[str, Piece]
    ways: tuple[Way, ...]
    x: Mapping[str, float]
    width: float


def tree(people: Sequence[Person], lessons: Sequence[Taught], width: float, rooms: Sequence[float]) -> Tree:
    """The first arrangement that fits `width`: roomy words first, generations split where they must be.

    Where words find no room on the curves they stand under the pupil's name."""
    flat, turned = _open_circles(lessons)
    generation = layers([p.id for p in people], [Link(a, b) for a, b in flat])
    narrowest: Tree | None = None
    for room, on_curves in [(room, True) for room in rooms] + [(rooms[0], False)]:
        limit = width
        for _ in range(_TRIES):
            found = _arrange(people, lessons, flat, turned, generation, room, on_curves, limit)
            if found and found.width <= width:
                return found
            if found and (narrowest is None or found.width < narrowest.width):
                narrowest = found
            limit *= 0.85
    assert narrowest is not None, "one name a row never crowds"
    return narrowest


def _arrange(
    people: Sequence[Person],
    lessons: Sequence[Taught],
    flat: Sequence[tuple[str, str]],
    turned: frozenset[tuple[str, str]],
    generation: Mapping[str, int],
    room: float,
    on_curves: bool,
    limit: float,
) -> Tree | None:
    names = {person.id: _name(person, lessons, people, room, on_curves) for person in people}
    words = {
        pair: wrap(lesson.words, SMALL, room) if on_curves else ()
        for pair, lesson in zip(flat, lessons, strict=True)
    }
    rows = _thinned(names, flat, words, generation, limit)
    pieces = {one: _on_row(piece, 2 * rows[one]) for one, piece in names.items()}
    ways, ties = [], []
    for above, below in flat:
        stations = [above]
        for row in range(2 * rows[above] + 1, 2 * rows[below]):
            one = f"\0{above}\0{below}\0{row}"
            lines = words[above, below] if row == 2 * rows[below] - 1 else ()
            size = (widest(lines, SMALL) + 8, len(lines) * SMALL_PITCH + 4) if lines else (_PASSING, 0.0)
            pieces[one] = Piece(one, row, *size, small=lines)
            stations.append(one)
        stations.append(below)
        ways.append(Way(tuple(stations), (above, below) in turned))
        for a, b in zip(stations, stations[1:], strict=False):
            ties.append(Link(a, b, ACROSS if above in (a, b) or below in (a, b) else _STRAIGHT_DOWN))
    boxes = [Box(piece.id, piece.width / 2, piece.width / 2) for piece in pieces.values()]
    at = {piece.id: piece.row for piece in pieces.values()}
    x = spread(boxes, at, ties, GAP)
    return None if crowded(boxes, at, x) else Tree(pieces, tuple(ways), x, width_of(boxes, x))


def _name(
    person: Person, lessons: Sequence[Taught], people: Sequence[Person], room: float, on_curves: bool
) -> Piece:
    lines = wrap(person.name, NAME, _NAME_ROOM)
    small = wrap(person.years, SMALL, _NAME_ROOM)
    if not on_curves:
        named = {one.id: one.name for one in people}
        for lesson in lessons:
            if lesson.learner == person.id:
                said = f"{lesson.words}, from {named[lesson.teacher]}" if lesson.words else ""
                small += wrap(said, SMALL, room)
    width = max(widest(lines, NAME), widest(small, SMALL)) + 10
    height = max(_TOUCH, len(lines) * NAME_PITCH + len(small) * SMALL_PITCH + 6)
    return Piece(person.id, 0, width, height, lines, small, person)


def _on_row(piece: Piece, row: int) -> Piece:
    return Piece(piece.id, row, piece.width, piece.height, piece.lines, piece.small, piece.person)


def _thinned(
    names: Mapping[str, Piece],
    flat: Sequence[tuple[str, str]],
    words: Mapping[tuple[str, str], tuple[str, ...]],
    generation: Mapping[str, int],
    limit: float,
) -> dict[str, int]:
    """Generations with the last written people moved a row down, and their pupils with them, while
    a row holds more than `limit` px."""
    rows = dict(generation)
    row = 0
    while row <= max(rows.values()):
        here = [one for one in names if rows[one] == row]
        passing = sum(1 for a, b in flat if rows[a] < row < rows[b]) * (_PASSING + GAP)
        written = [widest(words[a, b], SMALL) + 8 + GAP for a, b in flat if rows[b] == row]
        load = max(sum(names[one].width + GAP for one in here), sum(written)) + passing - GAP
        if load > limit and len(here) > 1:
            rows[here[-1]] += 1
            _pupils_below(rows, flat)
        else:
            row += 1
    return rows


def _pupils_below(rows: dict[str, int], flat: Sequence[tuple[str, str]]) -> None:
    moved = True
    while moved:
        moved = False
        for a, b in flat:
            if rows[b] <= rows[a]:
                rows[b] = rows[a] + 1
                moved = True


def _open_circles(
    lessons: Sequence[Taught],
) -> tuple[tuple[tuple[str, str], ...], frozenset[tuple[str, str]]]:
    """Each lesson as (above, below). A lesson that closes a circle, in the order written, is turned:
    the pupil stays above."""
    after: dict[str, set[str]] = defaultdict(set)
    flat: list[tuple[str, str]] = []
    turned: set[tuple[str, str]] = set()
    for lesson in lessons:
        above, below = lesson.teacher, lesson.learner
        if above in _all_below(after, below):
            above, below = below, above
            turned.add((above, below))
        after[above].add(below)
        flat.append((above, below))
    return tuple(flat), frozenset(turned)


def _all_below(after: Mapping[str, set[str]], start: str) -> set[str]:
    seen, to_see = {start}, [start]
    while to_see:
        fresh = after.get(to_see.pop(), set()) - seen
        seen |= fresh
        to_see.extend(fresh)
    return seen
