"""Numbered marks of a picture, each beside the place that it points at, never on it."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, pi, sin
from typing import NamedTuple, Protocol


class Marked(Protocol):
    """A place on a picture, from 0 to 1 from its upper left corner."""

    @property
    def x(self) -> float:
        """From the left."""
        ...

    @property
    def y(self) -> float:
        """From the top."""
        ...


class Beside(NamedTuple):
    """In hundredths of the picture: the place, and the middle of its number."""

    x: float
    y: float
    at_x: float
    at_y: float


WIDTH, HEIGHT = 320.0, 213.0
"""A picture as a phone shows it, in pixels; most photos are half as wide again as high."""
AWAY, EDGE = 64.0, 30.0
"""How far a number stands from its place, and at least from the edge."""


def beside(marks: Sequence[Marked]) -> list[Beside]:
    """The numbers, each in the direction in which it is farthest from all places and from the numbers before it."""
    places = [(mark.x * WIDTH, mark.y * HEIGHT) for mark in marks]
    numbers: list[tuple[float, float]] = []
    for x, y in places:
        ways = [(x + AWAY * cos(turn * pi / 8), y + AWAY * sin(turn * pi / 8)) for turn in range(16)]
        inside = [(a, b) for a, b in ways if EDGE <= a <= WIDTH - EDGE and EDGE <= b <= HEIGHT - EDGE]
        others = [*places, *numbers]
        numbers.append(max(inside, key=lambda at: min(hypot(at[0] - a, at[1] - b) for a, b in others)))
    return [Beside(_share(x, WIDTH), _share(y, HEIGHT), _share(a, WIDTH), _share(b, HEIGHT))
            for (x, y), (a, b) in zip(places, numbers, strict=True)]


def _share(part: float, whole: float) -> float:
    return round(100 * part / whole, 1)
