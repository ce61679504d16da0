"""How long one piece keeps hands busy on its whole way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from site_builder.formulas import guards


@dataclass(frozen=True, slots=True)
class HandsShare:
    """One operation: from ``least`` to ``most`` seconds for ``pieces`` at once, with ``hands`` people at it."""

    least: Fraction
    most: Fraction
    hands: int = 1
    pieces: Fraction = Fraction(1)


def hands_time(shares: Iterable[HandsShare]) -> tuple[Fraction, Fraction]:
    """Seconds of people's time in one piece, least and most.

    Two people at it for ten minutes are twenty minutes of hands; a load of twenty pieces shares its time
    among them. Setting up and waiting are not in it. Raises ``Impossible`` for a load of nothing or no hands.
    Source: piece costing, common practice.
    """
    least = most = Fraction(0)
    for share in shares:
        guards.above_zero("pieces at once", "count", share.pieces)
        guards.whole("hands", share.hands, 1)
        guards.not_negative("least time", "s", share.least)
        guards.at_least("most time", "s", share.most, share.least, "least time")
        least += share.least * share.hands / share.pieces
        most += share.most * share.hands / share.pieces
    return least, most
