"""How many of a number begun are still good at the end of a row of operations."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from site_builder.formulas import guards


def reach_the_end(begun: Fraction, scraps: Iterable[Fraction]) -> Fraction:
    """Pieces still good, on average, after operations that lose the shares ``scraps`` (0 to 1), one after another.

    What each operation passes on is what the next begins with, so the shares that pass are multiplied
    (what is mended is not lost). Source: rolled throughput yield, as quality handbooks define it, with scrap alone.
    Raises ``Impossible`` for a share that is none.
    """
    guards.not_negative("pieces begun", "count", begun)
    left = begun
    for scrap in scraps:
        guards.share("share of pieces lost", scrap)
        left *= 1 - scrap
    return left


def rolled_yield(passes: Iterable[float]) -> float:
    """The share (0 to 1) of pieces that goes right at the first try in every operation, none mended.

    ``passes`` are the shares that go right at each. Without operations it is 1. Raises ``Impossible`` for a share
    that is none. Source: rolled throughput yield, Minitab support pages, label example.
    """
    rolled = 1.0
    for passed in passes:
        rolled *= guards.share("share that goes right", passed)
    return rolled


def begin_on_average(wanted: float, passed: float) -> float:
    """Pieces, or kilograms, or metres to begin with so that ``wanted`` come out on average: in half of the batches.

    ``passed`` is the share that comes through. For material that can be divided this is the amount to use; for
    pieces that must not fall short see ``pieces_to_start``. Raises ``Impossible`` for less than nothing wanted, or
    a share that lets nothing through. Source: wanted divided by yield, as planning manuals have it; some add the
    scrap on top instead (100 and 10 % make 110, not 111), which is too little.
    """
    return guards.not_negative("pieces wanted", "", wanted) / guards.kept_share("share that comes through", passed)
