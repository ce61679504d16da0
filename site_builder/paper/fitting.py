"""Fitting a card to its sheet: what is left to the book and how much air there is, so that it takes two sides."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from site_builder.paper.press import Press

SIDES = 2
"""A card is one sheet."""
MOST_LEFT = 5
"""The furthest a card is cut: then only what the hands need at the moment stands on it."""
_ROOMY = 2


@dataclass(frozen=True, slots=True)
class Fit:
    """How a card fits: ``leave`` to the book (0 to 5), ``air`` between lines (0 to 2), steps ``whole`` or broken."""

    leave: int
    air: int
    whole: bool
    sides: int


@dataclass(frozen=True, slots=True)
class TooLong:
    """How many sides it would take, and the step that takes most of them."""

    sides: int
    step: int


def fitted(press: Press, number: int, steps: int) -> Fit | TooLong:
    """The card ``number`` with as little left out as may be, then with whole steps, then with as much air as there is.

    Raises CannotPrint.
    """
    for leave in range(MOST_LEFT + 1):
        for whole in (True, False):
            sides = _sides(press, number, leave, 0, whole)
            if sides <= SIDES:
                return _airy(press, number, Fit(leave, 0, whole, sides))
    return TooLong(sides, _longest(press, number, steps))


def _airy(press: Press, number: int, found: Fit) -> Fit:
    """The loosest setting that takes no more sides."""
    for air in range(_ROOMY, 0, -1):
        if _sides(press, number, found.leave, air, found.whole) == found.sides:
            return Fit(found.leave, air, found.whole, found.sides)
    return found


def _sides(press: Press, number: int, leave: int, air: int, whole: bool) -> int:
    return press.sides("cards.typ", **_inputs(number, leave, air, whole))


def _inputs(number: int, leave: int, air: int, whole: bool) -> dict[str, str]:
    return {"only": str(number), "leave": str(leave), "air": str(air), "whole": str(int(whole))}


def _longest(press: Press, number: int, steps: int) -> int:
    """The step that takes the most room: from its beginning to that of the next, down the columns."""
    found: list[list[dict[str, float]]] = press.ask("cards.typ", "beginnings", **_inputs(number, MOST_LEFT, 0, False))
    starts = [one["down"] for one in found[-1]]
    lengths = [after - before for before, after in pairwise(starts)]
    return 1 + max(range(min(steps, len(lengths))), key=lambda at: lengths[at])
