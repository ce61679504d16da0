"""Who taught whom: names in rows from the oldest teacher down, the words of each lesson on its curve."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.handbook.drawings import pen
from site_builder.handbook.drawings.graph import Person, Taught, people_known
from site_builder.handbook.drawings.lineage_plan import NAME_PITCH, SMALL_PITCH, Piece, Tree, Way, tree
from site_builder.handbook.drawings.lineage_words import Lessons, lessons_in_words, lessons_of, words_html

WIDE, TALL = 820.0, 328.0  # px
_WIDE_ROOMS = (190.0, 150.0, 110.0)  # px for the words of a lesson, the roomiest first
_TALL_ROOMS = (110.0, 84.0, 66.0)
_ABOVE, _BELOW = 26.0, 22.0  # px of bare curve above and below the words
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
        _picture(tree(people, lessons, WIDE, _WIDE_ROOMS), WIDE, label),
        _picture(tree(people, lessons, TALL, _TALL_ROOMS), TALL, label),
        words,
        words_html(words),
    )


def _picture(found: Tree, width: float, label: str) -> str:
    """Curves first, then the words on them, then the names."""
    middle, height = _heights(found)
    aside = max(0.0, (width - found.width) / 2)
    x = {one: place + aside for one, place in found.x.items()}
    comes = _ends(found, x)
    strokes: list[str] = []
    for way in found.ways:
        strokes += _curve(found, way, x, middle, comes)
    for piece in found.pieces.values():
        if piece.person is None and piece.small:
            strokes += _words(piece, x[piece.id], middle[piece.row])
    strokes += [_name(p, x[p.id], middle[p.row]) for p in found.pieces.values() if p.person]
    return pen.picture(max(width, found.width), height, strokes, "map", label)


def _heights(found: Tree) -> tuple[dict[int, float], float]:
    tall: dict[int, float] = defaultdict(float)
    for piece in found.pieces.values():
        tall[piece.row] = max(tall[piece.row], piece.height)
    middle: dict[int, float] = {}
    depth = 2.0
    for row in sorted(tall):
        middle[row] = depth + tall[row] / 2
        depth += tall[row] + (_ABOVE if row % 2 == 0 else _BELOW)
    last = max(middle)
    return middle, middle[last] + tall[last] / 2 + 4


def _ends(found: Tree, x: dict[str, float]) -> dict[tuple[str, str], float]:
    """Where each way reaches its lower name: side by side in the order in which they come."""
    into: dict[str, list[Way]] = defaultdict(list)
    for way in found.ways:
        into[way.stations[-1]].append(way)
    ends: dict[tuple[str, str], float] = {}
    for name, ways in into.items():
        ways.sort(key=lambda way: (x[way.stations[-2]], x[way.stations[0]]))
        step = min(_SPREAD, (found.pieces[name].width - 20) / max(1, len(ways) - 1))
        for i, way in enumerate(ways):
            ends[way.stations[0], name] = x[name] + (i - (len(ways) - 1) / 2) * step
    return ends


def _curve(
    found: Tree, way: Way, x: dict[str, float], middle: dict[int, float], ends: dict[tuple[str, str], float]
) -> list[str]:
    """One smooth line from the upper name through the words to the lower, an arrowhead at the pupil."""
    first, last = found.pieces[way.stations[0]], found.pieces[way.stations[-1]]
    start = (x[first.id], middle[first.row] + first.height / 2)
    end = (ends[first.id, last.id], middle[last.row] - last.height / 2)
    points = [start]
    for one in way.stations[1:-1]:
        piece = found.pieces[one]
        # Beside a name the line runs upright, so that it keeps the room it was given.
        reach = _row_reach(found, piece.row) if piece.row % 2 == 0 else 0.0
        points += [(x[one], middle[piece.row] - reach), (x[one], middle[piece.row] + reach)][: 2 if reach else 1]
    points.append(end)
    slopes = [0.0] * len(points)
    for i in range(1, len(points) - 1):
        (xa, ya), (xb, _), (xc, yc) = points[i - 1 : i + 2]
        if (xb - xa) * (xc - xb) > 0 and points[i][0] not in (points[i - 1][0], points[i + 1][0]):
            slopes[i] = (xc - xa) / (yc - ya)
    way_down = [f"M{pen.number(start[0])} {pen.number(start[1])}"]
    for (xa, ya), (xb, yb), sa, sb in zip(points, points[1:], slopes, slopes[1:], strict=False):
        third = (yb - ya) / 2.2
        ctrl = (xa + sa * third, ya + third, xb - sb * third, yb - third, xb, yb)
        way_down.append("C" + " ".join(pen.number(value) for value in ctrl))
    if way.up:
        tip = f"M{pen.number(start[0] - 4)} {pen.number(start[1] + 7)}l4-7 4 7"
    else:
        tip = f"M{pen.number(end[0] - 4)} {pen.number(end[1] - 7)}l4 7 4-7"
    return [pen.path("".join(way_down), "stream thinner"), pen.path(tip, "l")]


def _row_reach(found: Tree, row: int) -> float:
    return max(piece.height for piece in found.pieces.values() if piece.row == row) / 2


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
    return pen.link(person.href if person else "", body, hit)
