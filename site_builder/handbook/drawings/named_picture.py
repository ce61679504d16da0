"""A picture with the names of its parts at its sides, each with a line to the place it names.

Names stand at the height of their place and give way to each other downward. The wide drawing has names
on both sides, the tall one (for a phone) all at the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from site_builder.handbook.drawings import pen
from site_builder.handbook.drawings.lettering import wrap

_NAME, _SMALL = 19.0, 14.0  # px, as the stylesheet sets `lab` and `sub`
_NAME_PITCH, _SMALL_PITCH = 23.0, 17.0
_GAP = 10.0  # px between two names


@dataclass(frozen=True)
class Named:
    """A part: where it is in the picture (0 to 1 from the top left), its name and a few words."""

    x: float
    y: float
    name: str
    words: str = ""
    href: str = ""


@dataclass(frozen=True)
class _Sheet:
    """Where the picture and the names stand; in px."""

    width: float
    picture: float
    left: float
    tallest: float
    room: float
    sides: bool


_WIDE = _Sheet(width=580, picture=300, left=140, tallest=420, room=124, sides=True)
_TALL = _Sheet(width=328, picture=180, left=0, tallest=340, room=132, sides=False)


@dataclass(frozen=True)
class _Label:
    named: Named
    names: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def height(self) -> float:
        return len(self.names) * _NAME_PITCH + len(self.words) * _SMALL_PITCH


def named_picture(
    source: str, size: tuple[int, int], names: Sequence[Named], label: str
) -> tuple[str, str]:
    """The wide and the tall drawing as inline SVG; ``source`` is the address of the picture."""
    return _drawn(source, size, names, label, _WIDE), _drawn(source, size, names, label, _TALL)


def _drawn(source: str, size: tuple[int, int], names: Sequence[Named], label: str, sheet: _Sheet) -> str:
    scale = min(sheet.picture / size[0], sheet.tallest / size[1])
    width, height = size[0] * scale, size[1] * scale
    left = sheet.left + (sheet.picture - width) / 2
    ordered = sorted(names, key=lambda one: one.y)
    labels = [_Label(n, wrap(n.name, _NAME, sheet.room), wrap(n.words, _SMALL, sheet.room)) for n in ordered]
    at_left = [one for one in labels if sheet.sides and one.named.x < 0.5]
    at_right = [one for one in labels if one not in at_left]
    strokes = [f'<image href="{escape(source)}" x="{pen.number(left)}" y="2" width="{pen.number(width)}" '
               f'height="{pen.number(height)}"/>']
    foot = height + 4
    for side, ones in (("end", at_left), ("start", at_right)):
        for one, top in zip(ones, _tops(ones, height), strict=True):
            strokes += _label(one, top, side, sheet, left + one.named.x * width, 2 + one.named.y * height)
            foot = max(foot, top + one.height + 4)
    return pen.picture(sheet.width, foot, strokes, "", label)


def _tops(labels: Iterable[_Label], height: float) -> list[float]:
    """The top of each name: beside its place, below the name before it, and within the picture if it can."""
    tops: list[float] = []
    least = 0.0
    heights = []
    for one in labels:
        top = max(least, one.named.y * height - _NAME_PITCH / 2)
        tops.append(top)
        heights.append(one.height)
        least = top + one.height + _GAP
    most = height
    for i in reversed(range(len(tops))):  # push up what hangs below the picture
        tops[i] = max(0.0, min(tops[i], most - heights[i]))
        most = tops[i] - _GAP
    for i in range(1, len(tops)):  # more names than the picture is tall: downward after all
        tops[i] = max(tops[i], tops[i - 1] + heights[i - 1] + _GAP)
    return tops


def _label(one: _Label, top: float, side: str, sheet: _Sheet, x: float, y: float) -> list[str]:
    edge = sheet.room if side == "end" else sheet.width - sheet.room
    line = edge + 6 if side == "end" else edge - 6
    words = pen.text(edge, top + 17, one.names, "lab", _NAME_PITCH, side if side == "end" else "start")
    if one.words:
        words += pen.text(edge, top + len(one.names) * _NAME_PITCH + 12, one.words, "sub", _SMALL_PITCH, side)
    begin = edge - sheet.room if side == "end" else edge - 4
    hit = pen.rect(begin, top - 2, sheet.room + 4, max(44.0, one.height), "hit")
    return [
        pen.path(f"M{pen.number(x)} {pen.number(y)}L{pen.number(line)} {pen.number(top + 12)}", "l thin"),
        f'<circle class="dot" cx="{pen.number(x)}" cy="{pen.number(y)}" r="2.6"/>',
        pen.link(one.named.href, words, hit, one.named.name if len(one.names) > 1 else ""),
    ]
