"""How many of a number begun are still good at the end of a row of operations."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction


def reach_the_end(begun: Fraction, scraps: Iterable[Fraction]) -> Fraction:
    """Pieces still good after operations that lose the shares ``scraps`` (0 to 1), one after another.

    What each operation passes on is what the next begins with, so the shares that pass are multiplied
    (rolled throughput yield as quality handbooks define it, with scrap alone: what is mended is not lost).
    Raises ``ValueError`` for a share that is none.
    """
    left = begun
    for scrap in scraps:
        if not 0 <= scrap <= 1:
            raise ValueError(f"a share of pieces lies between 0 and 1, not at {float(scrap):g}")
        left *= 1 - scrap
    return left
