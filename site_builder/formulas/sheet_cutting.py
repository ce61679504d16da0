"""How many discs come out of a sheet, in straight rows or staggered, and what is left over."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, pi, sqrt
from typing import Literal

from site_builder.formulas import guards

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class SheetCut:
    """``discs`` out of one sheet, the ``rows`` they lie in, how, and the share of the sheet that is ``waste``."""

    discs: int
    rows: int
    laid: Literal["straight", "staggered"]
    waste: float


def straight_rows(length: float, width: float, disc: float, gap: float = 0.0, edge: float = 0.0) -> SheetCut:
    """Discs of diameter ``disc`` laid in straight rows, as squares are cut, ``gap`` apart and ``edge`` from the rim.

    All in metres. Raises ``Impossible`` for sizes of nothing. Source: geometry; ratio π/4 where no border is left.
    """
    usable, across, pitch = _usable(length, width, disc, gap, edge)
    each, rows = _fits(usable, disc, pitch), _fits(across, disc, pitch)
    return _cut(each * rows, rows, "straight", length, width, disc)


def staggered_rows(length: float, width: float, disc: float, gap: float = 0.0, edge: float = 0.0) -> SheetCut:
    """Discs laid in rows that nest, each row half a step on; rows run along whichever side gives more.

    All in metres. Raises ``Impossible`` for sizes of nothing. Source: geometry; ratio π/√12 where no border is left.
    """
    best = (0, 0)
    for along, over in ((length, width), (width, length)):
        usable, across, pitch = _usable(along, over, disc, gap, edge)
        each = _fits(usable, disc, pitch)
        rows = _fits(across, disc, pitch * sqrt(3) / 2)
        shifted = _fits(usable - pitch / 2, disc, pitch)
        best = max(best, (each * -(-rows // 2) + shifted * (rows // 2), rows))
    return _cut(*best, "staggered", length, width, disc)


def discs_from_sheet(length: float, width: float, disc: float, gap: float = 0.0, edge: float = 0.0) -> SheetCut:
    """The better of straight and staggered rows; straight where both give the same, since it is easier to cut.

    All in metres. Raises ``Impossible`` for sizes of nothing. Source: as the two.
    """
    straight = straight_rows(length, width, disc, gap, edge)
    staggered = staggered_rows(length, width, disc, gap, edge)
    return staggered if staggered.discs > straight.discs else straight


def _usable(length: float, width: float, disc: float, gap: float, edge: float) -> tuple[float, float, float]:
    guards.above_zero("length", "m", length)
    guards.above_zero("width", "m", width)
    guards.above_zero("disc", "m", disc)
    guards.not_negative("gap", "m", gap)
    guards.not_negative("edge", "m", edge)
    return length - 2 * edge, width - 2 * edge, disc + gap


def _fits(room: float, disc: float, pitch: float) -> int:
    """How many discs stand in a row of that room, their middles a pitch apart."""
    return floor((room - disc) / pitch + _ROUNDING) + 1 if room >= disc * (1 - _ROUNDING) else 0


def _cut(
    discs: int, rows: int, laid: Literal["straight", "staggered"], length: float, width: float, disc: float
) -> SheetCut:
    return SheetCut(discs, rows, laid, 1 - discs * pi / 4 * disc**2 / (length * width))
