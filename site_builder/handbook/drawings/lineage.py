"""Who taught whom: names in rows from the oldest teacher down, the words of each lesson on its curve."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from site_builder.handbook.drawings import pen, rows
from site_builder.handbook.drawings.flow import flow_of
from site_builder.handbook.drawings.graph import Edge, Lane, Person, Stop, Taught, WorkGraph, people_known
from site_builder.handbook.drawings.lineage_plan import NAME_PITCH, SMALL_PITCH, Piece, Tree, Way, tree
from site_builder.handbook.drawings.lineage_words import Lessons, lessons_in_words, lessons_of, words_html

WIDE, TALL = 820.0, 328.0  # px
_WIDE_ROOMS = (190.0, 150.0, 110.0)  # px for the words of a lesson, the roomiest first
_TALL_ROOMS = (110.0, 84.0, 66.0)
_ABOVE, _BELOW = 18.0, 18.0  # px of bare curve above and below the words
_SPREAD = 14.0  # px between two curves that come to one name


@dataclass(frozen=True)
class Lineage:
    """Two drawings as inline SVG; `words` has an entry for each teacher, and the same as HTML."""

    wide: str
    tall: str
    words: tuple[Lessons, ...]
    words_html: str


def lineage(people: Sequence[Person], taught: Sequence[Taught], label: str = "Who taught whom") -> Lineage:
    """Draw who taught whom. Raises `ValueError` for a stranger; nobody at all draws nothing."""
    people_known(people, taught)
    if not people:
        return Lineage("", "", (), "")
    lessons = lessons_of(taught)
    words = lessons_in_words(people, lessons)
    return Lineage(
        _picture(people, lessons, WIDE, _WIDE_ROOMS, label),
        _picture(people, lessons, TALL, _TALL_ROOMS, label),
        words,
        words_html(words),
    )


def _picture(
    people: Sequence[Person], lessons: Sequence[Taught], width: float, rooms: Sequence[float], label: str
) -> str:
    found = tree(people, lessons, width, rooms)
    return _rows_picture(people, lessons, width, label) if found is None else _tree_picture(found, width, label)


def _rows_picture(people: Sequence[Person], lessons: Sequence[Taught], width: float, label: str) -> str:
    """One name a row, the lessons under the pupil's name: for more people than curves can join."""
    names = {person.id: person.name for person in people}
    small: dict[str, tuple[str, ...]] = {person.id: (person.years,) if person.years else () for person in people}
    for lesson in lessons:
        said = f"{lesson.words}, from" if lesson.words else "taught by"
        small[lesson.learner] += (f"{said} {names[lesson.teacher]}",)
    stops = tuple(Stop(person.id, person.name, person.href, "") for person in people)
    edges = tuple(Edge(lesson.teacher, lesson.learner) for lesson in lessons)
    flow = flow_of(WorkGraph((Lane("", ""),), stops, edges))
    page = rows.sheet(flow, width, rows.PHONE if width == TALL else rows.TABLET_LINEAGE, small)
    return pen.picture(width, page.height, rows.inked(flow, page), "map", label)


def _tree_picture(found: Tree, width: float, label: str) -> str:
    """Curves first, then the words on them, then the names."""
    middle, free, height = _heights(found)
    aside = max(0.0, (width - found.width) / 2)
    x = {one: place + aside for one, place in found.x.items()}
    comes = _ends(found, x)
    strokes: list[str] = []
    for way in found.ways:
        strokes += _curve(found, way, x, free, comes)
    for piece in found.pieces.values():
        if piece.person is None and piece.small:
            strokes += _words(piece, x[piece.id], middle[piece.row])
    strokes += [_name(p, x[p.id], middle[p.row]) for p in found.pieces.values() if p.person]
    return pen.picture(width, height, strokes, "map", label)


def _heights(found: Tree) -> tuple[dict[int, float], dict[int, tuple[float, float]], float]:
    """The middle of each row, the free strip below it, and the height of all."""
    tall: dict[int, float] = defaultdict(float)
    for piece in found.pieces.values():
        tall[piece.row] = max(tall[piece.row], piece.height)
    aside: dict[int, float] = defaultdict(float)
    for way in found.ways:
        for a, b in pairwise(way.stations):
            row = found.pieces[a].row
            aside[row] = max(aside[row], abs(found.x[a] - found.x[b]))
    middle: dict[int, float] = {}
    free: dict[int, tuple[float, float]] = {}
    depth = 2.0
    for row in sorted(tall):
        middle[row] = depth + tall[row] / 2
        foot = depth + tall[row]
        depth = foot + (_ABOVE if row % 2 == 0 else _BELOW) + min(48.0, aside[row] * 0.12)
        free[row] = (foot, depth)
    return middle, free, free[max(free)][0] + 4


def _ends(found: Tree, x: Mapping[str, float]) -> dict[tuple[str, str], float]:
    """Where each way reaches its lower name: straight below its words if it can, else side by side
    in the order in which they come."""
    into: dict[str, list[Way]] = defaultdict(list)
    for way in found.ways:
        into[way.stations[-1]].append(way)
    ends: dict[tuple[str, str], float] = {}
    for name, ways in into.items():
        ways.sort(key=lambda way: (x[way.stations[-2]], x[way.stations[0]]))
        reach = max(_SPREAD / 2, found.pieces[name].width / 4)
        step = min(_SPREAD, 2 * reach / max(1, len(ways) - 1))
        edge = x[name] - reach
        for i, way in enumerate(ways):
            last = x[name] + reach - (len(ways) - 1 - i) * step
            edge = min(max(edge, x[way.stations[-2]]), last)
            ends[way.stations[0], name] = edge
            edge += step
    return ends


def _curve(
    found: Tree,
    way: Way,
    x: Mapping[str, float],
    free: Mapping[int, tuple[float, float]],
    ends: Mapping[tuple[str, str], float],
) -> list[str]:
    """From the upper name through the words to the lower: upright beside names and words, curved
    between the rows, an arrowhead at the pupil."""
    first, last = found.pieces[way.stations[0]], found.pieces[way.stations[-1]]
    goal = ends[first.id, last.id]
    start = free[first.row][0] - _row_height(found, first.row) / 2 + first.height / 2
    strokes = [f"M{pen.number(x[first.id])} {pen.number(start)}"]
    for a, b in pairwise(way.stations):
        foot, top = free[found.pieces[a].row]
        to = goal if b == last.id else x[b]
        # A short straight end lets the arrowhead point down.
        curve_end = top - 7 if b == last.id and not way.up else top
        strokes.append(f"V{pen.number(foot)}{pen.curve(x[a], foot, to, curve_end)}")
    end = free[last.row][0] - _row_height(found, last.row) / 2 - last.height / 2
    strokes.append(f"V{pen.number(end)}")
    if way.up:
        tip = f"M{pen.number(x[first.id] - 4)} {pen.number(start + 7)}l4-7 4 7"
    else:
        tip = f"M{pen.number(goal - 4)} {pen.number(end - 7)}l4 7 4-7"
    return [pen.path("".join(strokes), "stream thinner"), pen.path(tip, "l")]


def _row_height(found: Tree, row: int) -> float:
    return max(piece.height for piece in found.pieces.values() if piece.row == row)


def _words(piece: Piece, x: float, y: float) -> list[str]:
    top = y - piece.height / 2
    return [
        pen.rect(x - piece.width / 2, top, piece.width, piece.height, "paper"),
        pen.text(x, top + 15, piece.small, "sub", SMALL_PITCH, "middle"),
    ]


def _name(piece: Piece, x: float, y: float) -> str:
    person = piece.person
    top = y - (len(piece.lines) * NAME_PITCH + len(piece.small) * SMALL_PITCH) / 2
    body = pen.text(x, top + 15, piece.lines, "st", NAME_PITCH, "middle")
    if piece.small:
        body += pen.text(x, top + len(piece.lines) * NAME_PITCH + 13, piece.small, "sub", SMALL_PITCH, "middle")
    hit = pen.rect(x - piece.width / 2, y - piece.height / 2, piece.width, piece.height, "hit")
    said = ", ".join(part for part in (person.name, person.years) if part) if person else ""
    return pen.link(person.href if person else "", body, hit, said if len(piece.lines) > 1 else "")
