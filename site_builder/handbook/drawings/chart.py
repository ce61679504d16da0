"""Small charts in ink: pieces as they were made, the time they took, and verdicts beside the teacher's.

Each is drawn for one width. What it shows stands in words beside it; for who cannot see it the label says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from math import floor, log10
from typing import Literal

from site_builder.handbook.drawings.lettering import text_width
from site_builder.handbook.drawings.pen import number, path, rect, text

WIDE, NARROW = 600.0, 328.0
_SMALL = 14.0
_FAR = 4.0
"""A curve is drawn on to where it reaches its mark, but no further than so many times the pieces made."""
Verdict = Literal["alike", "passed", "thrown"]


@dataclass(frozen=True, slots=True)
class Pieces:
    """Whether each piece was good, in order; ``ends``: the last piece of each entry; ``steady``: since when."""

    good: Sequence[bool]
    ends: Sequence[int]
    steady: int | None = None


@dataclass(frozen=True, slots=True)
class Times:
    """Lots as (piece, time of one), a curve as (piece, time), ``made`` so far, a time to be reached, the unit."""

    lots: Sequence[tuple[float, float]]
    curve: Sequence[tuple[float, float]]
    made: int
    target: float | None
    unit: str


def pieces_chart(pieces: Pieces, label: str, width: float = WIDE) -> str:
    """A stroke for each piece: short ones good, tall heavy ones not; the entries beneath."""
    count = len(pieces.good)
    left, right, top, foot = 4.0, width - 4.0, 30.0, 74.0
    pitch = (right - left) / max(count, 1)

    def middle(piece: int) -> float:
        return left + (piece - 0.5) * pitch

    good = "".join(f"M{number(middle(i))} {number(foot)}v-12" for i, sound in enumerate(pieces.good, 1) if sound)
    bad = "".join(f"M{number(middle(i))} {number(foot)}V{number(top)}"
                  for i, sound in enumerate(pieces.good, 1) if not sound)
    ends = "".join(f"M{number(left + end * pitch)} {number(foot)}v9" for end in (0, *pieces.ends))
    body = [
        path(f"M{number(left)} {number(foot)}H{number(right)}", "l"),
        path(good, "l thin") if good and pitch > 2.5 else "",
        path(bad, "l heavy") if bad else "",
        path(ends, "l thin"),
        *_numbers([left + end * pitch for end in pieces.ends], pieces.ends, foot + 24, right),
    ]
    if pieces.steady is not None:
        at = left + (pieces.steady - 1) * pitch
        said = f"steady from piece {pieces.steady}"
        after = at + 6 + text_width(said, _SMALL) < right
        body += [
            path(f"M{number(at)} 6V{number(foot)}", "l dash"),
            text(at + 6 if after else at - 6, 18, [said], "sub", 0, "start" if after else "end"),
        ]
    return _picture(width, foot + 30, body, label)


def times_chart(times: Times, label: str, width: float = WIDE) -> str:
    """Lots as rings over the pieces, the curve through them, dashed where it is only expected."""
    left, right, top, foot = 40.0, width - 8.0, 26.0, 186.0
    furthest = max(times.made, min(times.curve[-1][0] if times.curve else 0, times.made * _FAR))
    curve = [point for point in times.curve if point[0] <= furthest]
    highest = max([time for _, time in (*times.lots, *curve)] + ([times.target] if times.target else []))
    step = _step(highest)
    highest = step * floor(highest / step + 1)

    def x(piece: float) -> float:
        return left + (right - left) * piece / furthest

    def y(time: float) -> float:
        return foot - (foot - top) * time / highest

    body = [
        path(f"M{number(left)} {number(top)}V{number(foot)}H{number(right)}", "l thin"),
        text(0, 13, [f"{times.unit} a piece"], "sub", 0),
        *_ticks(step, highest, left, y),
        text(right, foot + 22, [f"piece {furthest:.0f}"], "sub", 0, "end"),
        text(left, foot + 22, ["piece 1"], "sub", 0),
    ]
    if times.made < furthest * 0.75 and x(times.made) > left + 120:
        body.append(text(x(times.made), foot + 22, [f"{times.made} so far"], "sub", 0, "middle"))
    if times.made < furthest:
        body.append(path(f"M{number(x(times.made))} {number(foot)}v7", "l thin"))
    if times.target is not None:
        body += [path(f"M{number(left)} {number(y(times.target))}H{number(right)}", "l dash"),
                 text(right, y(times.target) + 18, ["standard time"], "sub", 0, "end")]
    for part, css in ((_until(curve, times.made), "l"), (_from(curve, times.made), "l dash")):
        if len(part) > 1:
            body.append(path("M" + "L".join(f"{number(x(p))} {number(y(t))}" for p, t in part), css))
    body += [f'<circle class="mark" cx="{number(x(p))}" cy="{number(y(t))}" r="5"/>' for p, t in times.lots]
    return _picture(width, foot + 30, body, label)


def verdicts_chart(rows: Sequence[tuple[str, Sequence[Verdict]]], label: str, width: float = WIDE) -> str:
    """For each trial a row of marks: a ring where both said the same, a cross for one let pass, a filled square for
    one thrown away."""
    pitch, body, y = 18.0, [], 16.0
    a_line = int(width // pitch)
    for name, marks in rows:
        body.append(text(0, y, [name], "sub", 0))
        for start in range(0, len(marks), a_line):
            y += 20
            body += [_verdict(9 + pitch * i, y - 5, one) for i, one in enumerate(marks[start : start + a_line])]
        y += 26
    return _picture(width, y - 12, body, label)


def _verdict(x: float, y: float, verdict: Verdict) -> str:
    if verdict == "alike":
        return f'<circle class="l" cx="{number(x)}" cy="{number(y)}" r="5"/>'
    if verdict == "passed":
        return path(f"M{number(x - 5)} {number(y - 5)}l10 10m0-10l-10 10", "l heavy")
    return rect(x - 5, y - 5, 10, 10, "dot")


def _numbers(places: Sequence[float], values: Sequence[int], y: float, right: float) -> Iterator[str]:
    """As many numbers as have room side by side; the last one always."""
    free = right
    shown = []
    for place, value in reversed([*zip(places, values, strict=True)]):
        half = text_width(str(value), _SMALL) / 2
        centre = min(place, right - half)
        if centre + half <= free:
            shown.append(text(centre, y, [str(value)], "sub", 0, "middle"))
            free = centre - half - 8
    yield from reversed(shown)


def _ticks(step: float, highest: float, left: float, y: Callable[[float], float]) -> Iterator[str]:
    for i in range(1, round(highest / step) + 1):
        at = y(i * step)
        yield path(f"M{number(left - 5)} {number(at)}h5", "l thin")
        yield text(left - 8, at + 5, [f"{i * step:g}"], "sub", 0, "end")


def _step(highest: float) -> float:
    """A round distance of ticks that makes two to five of them."""
    rough = highest / 4
    power = 10.0 ** floor(log10(rough))
    return float(next(power * round_ for round_ in (1, 2, 5, 10) if power * round_ >= rough))


def _until(curve: Sequence[tuple[float, float]], made: int) -> list[tuple[float, float]]:
    return [point for point in curve if point[0] <= made]


def _from(curve: Sequence[tuple[float, float]], made: int) -> list[tuple[float, float]]:
    return _until(curve, made)[-1:] + [point for point in curve if point[0] > made]


def _picture(width: float, height: float, body: Sequence[str], label: str) -> str:
    size = f'viewBox="0 0 {number(width)} {number(height)}" width="{number(width)}" height="{number(height)}"'
    inside = "\n".join(part for part in body if part)
    return f'<svg class="bl-drawing chart" {size} role="img" aria-label="{escape(label)}">\n{inside}\n</svg>\n'
