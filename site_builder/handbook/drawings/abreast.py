"""The wide map: lanes side by side, every stop on its lane's line, joins in smooth curves."""

from __future__ import annotations

from collections import defaultdict

from site_builder.handbook.drawings import pen
from site_builder.handbook.drawings.boxes import STRAIGHT
from site_builder.handbook.drawings.flow import Flow
from site_builder.handbook.drawings.graph import Lane, Loop
from site_builder.handbook.drawings.lettering import wrap
from site_builder.handbook.drawings.pieces import (
    BOUGHT_REACH,
    HEAD,
    LABEL_PITCH,
    LOOP_ROOM,
    SMALL,
    SMALL_PITCH,
    TEXT_FROM_LINE,
    TITLE_PITCH,
    TOUCH,
    Chain,
    Piece,
)
from site_builder.handbook.drawings.plan import STRIP, Plan


def drawing(flow: Flow, plan: Plan) -> list[str]:
    """The strokes of the map: lines first, then loops, then what stands on the lines."""
    side_ways = sorted(plan.pieces.chains, key=lambda chain: flow.is_main(chain.edge))
    strokes = [_line(flow, plan, chain) for chain in side_ways]
    for head in flow.heads:
        x, y = plan.at(head)
        strokes.append(pen.path(f"M{pen.number(x)} {pen.number(y - HEAD)}V{pen.number(y)}", "stream"))
        strokes.append(pen.path(f"M{pen.number(x - 7)} {pen.number(y - HEAD)}h14", "l heavy"))
    strokes += [_loop(plan, loop, way) for loop, way in plan.pieces.loops.items()]
    # Lane by lane, the leftmost first, so that the keyboard goes through them as the eye does.
    by_lane: dict[str, list[Piece]] = defaultdict(list)
    for piece in sorted(plan.pieces.by_id.values(), key=lambda piece: (piece.row, plan.x[piece.id])):
        if piece.stop:
            by_lane[piece.stop.lane].append(piece)
    for lane, pieces in by_lane.items():
        for piece in pieces:
            strokes += _lane_name(plan, piece, flow.lanes[lane]) + _bought(plan, piece) + _stop(plan, piece)
    return strokes


def _line(flow: Flow, plan: Plan, chain: Chain) -> str:
    """One edge: upright through its rows, in a curve between them, where no label stands."""
    x, y = plan.at(chain.way[0])
    way = [f"M{pen.number(x)} {pen.number(y)}"]
    for here, below in zip(chain.way, chain.way[1:], strict=False):
        (x1, _), (x2, y2) = plan.at(here), plan.at(below)
        if abs(x1 - x2) >= STRAIGHT:
            foot, top = plan.free[plan.pieces.by_id[here].row]
            way.append(f"V{pen.number(foot)}{pen.curve(x1, foot, x2, top)}")
        way.append(f"V{pen.number(y2)}")
    return pen.path("".join(way), "stream" if flow.is_main(chain.edge) else "stream thinner")


def _loop(plan: Plan, loop: Loop, beside: tuple[str, ...]) -> str:
    """Back up at the left of the line, with an arrowhead and the count beside it."""
    (x, y1), (_, y2) = plan.at(loop.source), plan.at(loop.target)
    out = pen.number(x - 38)
    way = f"M{pen.number(x - 9)} {pen.number(y1)}C{out} {pen.number(y1)} {out} {pen.number(y2)}"
    way += f" {pen.number(x - 11)} {pen.number(y2)}"
    head = f"M{pen.number(x - 18)} {pen.number(y2 - 5)}l7 5-7 5"
    strokes = pen.path(way, "l thin") + pen.path(head, "l thin")
    lines = wrap(loop.words, SMALL, LOOP_ROOM)
    if lines:
        middle = (y1 + y2) / 2
        if _crossed(plan, middle):
            # Between rows another line may pass; at the height of a stop the place is kept free.
            middle = min((plan.at(stop)[1] for stop in beside), key=lambda y: abs(y - middle))
        top = middle - len(lines) * SMALL_PITCH / 2
        strokes += pen.text(x - 36, top + 13, lines, "sub", SMALL_PITCH, "end")
    return strokes


def _crossed(plan: Plan, y: float) -> bool:
    """Whether lines go aside in the strip at the height `y`."""
    return any(foot <= y <= top and top - foot > STRIP for foot, top in plan.free.values())


def _lane_name(plan: Plan, piece: Piece, lane: Lane) -> list[str]:
    """The name of a lane: above the beginning of its line, or above its first stop if it begins in a join."""
    if not piece.title:
        return []
    x, y = plan.at(piece.id)
    left = x - 9 if piece.head else x + TEXT_FROM_LINE
    top = y - (plan.up[piece.row] if piece.head else piece.up)
    title = pen.text(left, top + 20, piece.title, "lane", TITLE_PITCH)
    deep = len(piece.title) * TITLE_PITCH
    hit = pen.rect(left - 5, top, piece.right - (left - x) + 5, max(deep, 24), "hit")
    strokes = [pen.link(lane.href, title, hit)]
    if piece.subtitle:
        strokes.append(pen.text(left, top + deep + 15, piece.subtitle, "sub", SMALL_PITCH))
    return strokes


def _bought(plan: Plan, piece: Piece) -> list[str]:
    """What is bought in comes from the left on a dashed line."""
    if not piece.bought:
        return []
    x, y = plan.at(piece.id)
    end = x - BOUGHT_REACH - 4
    top = y - len(piece.bought) * SMALL_PITCH / 2
    return [
        pen.path(f"M{pen.number(end + 6)} {pen.number(y)}H{pen.number(x - 9)}", "l thin dash"),
        pen.text(end, top + 13, piece.bought, "sub", SMALL_PITCH, "end"),
    ]


def _stop(plan: Plan, piece: Piece) -> list[str]:
    stop = piece.stop
    if stop is None:
        return []
    x, y = plan.at(piece.id)
    half = max(TOUCH, len(piece.label) * LABEL_PITCH / 2 + 3)
    first = y + 6 - (len(piece.label) - 1) * LABEL_PITCH / 2
    body = pen.mark(x, y, stop.outside) + pen.text(x + TEXT_FROM_LINE, first, piece.label, "st", LABEL_PITCH)
    hit = pen.rect(x - 14, y - half, piece.right + 12, 2 * half, "hit")
    said = f"{stop.label}, done outside" if stop.outside else ""
    strokes = [pen.link(stop.href, body, hit, said)]
    if piece.notes:
        below = y + len(piece.label) * LABEL_PITCH / 2 + 13
        strokes.append(pen.text(x + TEXT_FROM_LINE, below, piece.notes, "sub", SMALL_PITCH))
    return strokes
