"""How many hands a piece of work needs at least."""

from __future__ import annotations

from math import ceil

from site_builder.notebook.model.harm import Hands
from site_builder.quantity import bounds


def least_hands(hands: Hands) -> int:
    """The hands needed at once: of `2..3` the two; where no count is written, one for each role."""
    found = None if hands.count is None else bounds(hands.count.value)
    if found is None:
        return len(hands.roles)
    figure = found.low if found.limited else found.aim_low
    return 0 if figure is None else ceil(figure)
