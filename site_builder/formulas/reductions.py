"""How far metal is worked in each pass, in how many passes, and before which it must be annealed."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

COMMON_BETWEEN_ANNEALS = 0.5
"""Reduction after which brass and copper are annealed: about half, common practice; the metal's own value rules."""
_MOST_PASSES = 1000


def reduction(before: float, after: float) -> float:
    """Share by which a size is made smaller: thickness in rolling, diameter in drawing and spinning, area in wire.

    Both in the same unit. Raises ``Impossible`` for sizes of nothing or one that grows.
    Source: cold work, Callister, Materials Science and Engineering; drawing reduction, Groover, chapter 20.
    """
    guards.above_zero("size after", "as before", after)
    return 1 - after / guards.at_least("size before", "as after", before, after, "size after")


def total_reduction(reductions: Sequence[float]) -> float:
    """Share by which a row of reductions, one after another, makes the first size smaller.

    Raises ``Impossible`` for an empty row or a share that leaves nothing. Source: as ``reduction``.
    """
    guards.some("reductions", "share", reductions)
    left = 1.0
    for each in reductions:
        left *= 1 - guards.lost_share("reduction", each)
    return 1 - left


def drawing_ratio(blank: float, shell: float) -> float:
    """Diameter of the blank over that of the shell, both in the same unit.

    Raises ``Impossible`` for sizes of nothing or a shell wider than its blank. Source: Groover, chapter 20.
    """
    guards.above_zero("shell", "as the blank", shell)
    return guards.at_least("blank", "as the shell", blank, shell, "shell") / shell


def passes(blank: float, finished: float, first: float, then: float) -> tuple[float, ...]:
    """Diameter after each pass from ``blank`` to ``finished`` (m), each taking as much as it may.

    ``first`` and ``then`` are the most each of the first and the later passes may reduce the diameter, as shares.
    The last ends at ``finished``. Empty where nothing is to be done. Raises ``Impossible`` for sizes of nothing,
    a finished size over the blank, or reductions outside 0 to 1. Source: redrawing, ASM Handbook vol. 14B.
    """
    guards.above_zero("finished size", "m", finished)
    guards.at_least("blank", "m", blank, finished, "finished size")
    for what, most in (("first reduction", first), ("later reduction", then)):
        guards.above_zero(what, "share", guards.lost_share(what, most))
    sizes: list[float] = []
    size, most = blank, first
    while size > finished * (1 + 1e-9):
        if len(sizes) == _MOST_PASSES:
            raise Impossible("later reduction", "share", then, f"must be enough to end within {_MOST_PASSES} passes")
        size, most = max(size * (1 - most), finished), then
        sizes.append(size)
    return tuple(sizes)


def anneals_due(reductions: Sequence[float], most: float = COMMON_BETWEEN_ANNEALS) -> tuple[int, ...]:
    """Which passes (counted from 0) need an anneal before them, so that no stretch is worked more than ``most``.

    A single pass over ``most`` is annealed before and after, and no more can be done. The first pass needs none:
    the metal is taken as soft. Raises ``Impossible`` for an empty row or shares outside 0 to 1.
    Source: cold work adds up as in ``total_reduction``; ``most`` from the metal's data sheet, or common practice.
    """
    guards.some("reductions", "share", reductions)
    guards.above_zero("most", "share", guards.lost_share("most", most))
    due: list[int] = []
    left = 1.0
    for number, each in enumerate(reductions):
        keeps = 1 - guards.lost_share("reduction", each)
        if number and 1 - left * keeps > most + 1e-9:
            due.append(number)
            left = 1.0
        left *= keeps
    return tuple(due)
