"""Places for the lineage: generations from the layered engine, thinned out to fit a width.

The words of a lesson are a piece of their own on the row above the pupil, so the engine keeps them
clear of names and of each other just as it keeps names apart.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from site_builder.handbook.drawings.boxes import ACROSS, ON_THE_LINE, Box, Link, crowded, fullest, width_of
from site_builder.handbook.drawings.graph import Person, Taught, has_circle
from site_builder.handbook.drawings.layout import layers, spread
from site_builder.handbook.drawings.lettering import widest, wrap

NAME, SMALL = 17.0, 15.5  # px, at the largest the stylesheet sets them
NAME_PITCH, SMALL_PITCH = 20.0, 17.0
GAP = 8.0
_PASSING = 6.0
_NAME_ROOM = 170.0
_TOUCH = 46.0
_MOST = 40
"""Of more people than this no tree is tried: it would be a dozen rows deep; each has a row of their own instead."""
_SHARES = (1.0, 0.75, 0.5, 0.0)  # how full a row may be before people move down, of the width


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


def tree(people: Sequence[Person], lessons: Sequence[Taught], width: float, rooms: Sequence[float]) -> Tree | None:
    """The first arrangement that fits `width`: roomy words first, generations split where they must
    be; None where it cannot be done."""
    if len(people) > _MOST:
        return None
    flat, turned = _open_circles(lessons)
    generation = layers([p.id for p in people], [Link(a, b) for a, b in flat])
    for room in rooms:
        for tight in (False, True):
            for share in _SHARES:
                setting = _Setting(room, width if tight else None, share * width)
                found = _arrange(people, lessons, flat, turned, generation, setting, width)
                if found and found.width <= width:
                    return found
    return None


@dataclass(frozen=True)
class _Setting:
    """One way to try: room for words in px, lines bent to keep `within`, and how full in px a row may
    be before people move down."""

    room: float
    within: float | None
    limit: float


def _arrange(
    people: Sequence[Person],
    lessons: Sequence[Taught],
    flat: Sequence[tuple[str, str]],
    turned: frozenset[tuple[str, str]],
    generation: Mapping[str, int],
    setting: _Setting,
    width: float,
) -> Tree | None:
    """None where people stand in each other's room, or where a row alone is wider than the whole may be."""
    names = {person.id: _name(person) for person in people}
    words = {pair: wrap(lesson.words, SMALL, setting.room) for pair, lesson in zip(flat, lessons, strict=True)}
    rows = _thinned(names, flat, words, generation, setting.limit)
    pieces = {one: _on_row(piece, 2 * rows[one]) for one, piece in names.items()}
    ways, ties = [], []
    for above, below in flat:
        stations = [above]
        for row in range(2 * rows[above] + 1, 2 * rows[below]):
            one = f"\0{above}\0{below}\0{row}"
            lines = words[above, below] if row == 2 * rows[below] - 1 else ()
            size = (widest(lines, SMALL) + 12, len(lines) * SMALL_PITCH + 4) if lines else (_PASSING, 0.0)
            pieces[one] = Piece(one, row, *size, small=lines)
            stations.append(one)
        stations.append(below)
        ways.append(Way(tuple(stations), (above, below) in turned))
        for a, b in pairwise(stations):
            ties.append(Link(a, b, ACROSS if a == above else ON_THE_LINE / 2))
    boxes = [Box(piece.id, piece.width / 2, piece.width / 2) for piece in pieces.values()]
    at = {piece.id: piece.row for piece in pieces.values()}
    if fullest(boxes, at, GAP) > width:
        return None
    x = spread(boxes, at, ties, GAP, setting.within)
    return None if crowded(boxes, at, x) else Tree(pieces, tuple(ways), x, width_of(boxes, x))


def _name(person: Person) -> Piece:
    lines = wrap(person.name, NAME, _NAME_ROOM)
    small = wrap(person.years, SMALL, _NAME_ROOM)
    width = max(widest(lines, NAME), widest(small, SMALL)) + 14
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
        written = [widest(words[a, b], SMALL) + 12 + GAP for a, b in flat if rows[b] == row]
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
    if not has_circle((lesson.teacher, lesson.learner) for lesson in lessons):
        return tuple((lesson.teacher, lesson.learner) for lesson in lessons), frozenset()
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
