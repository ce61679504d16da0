"""How long a hand practises until it is quick enough and has made enough pieces, by its learning curve."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, fsum

from site_builder.formulas.guards import whole
from site_builder.skills.proof.curve_fit import Fitted
from site_builder.skills.proof.learning_curve import total_time

FURTHER = 4
"""So many times the pieces made a curve is followed; what it reaches later is not in sight. Our own choice."""
_MOST = 20_000
"""Pieces that no proof asks for; a curve is followed piece by piece."""
_EVEN = 1e-9
"""A place that is a whole piece but for the machine's sixteen digits is that piece."""


@dataclass(frozen=True, slots=True)
class Until:
    """So many ``pieces`` from the first on, and the time that they take together, in the unit of the curve.

    ``quick``: whether the last of them takes no longer than the standard time; otherwise they are merely as many as
    were asked for. ``low`` and ``high`` are the limits of the time at the confidence of the curve; no ``high`` where
    it cannot be told how long it takes at most.
    """

    pieces: int
    took: float
    low: float
    high: float | None
    quick: bool


def time_until(fitted: Fitted, target: float | None, pieces: int | None) -> Until | None:
    """The time until a piece takes no longer than ``target`` and ``pieces`` are made, whichever is later.

    Either may be left out. None where neither is told, or the target alone and it is not in sight. The curve is of
    the unit form; its time is summed piece by piece. Where the target comes last, the limits are those of the piece
    at which it is reached; where the pieces do, those of the curve itself, taken as off to the same side all along.
    Raises ``Impossible`` for a target of nothing or fewer pieces than one.
    Source: sums of the unit curve as RAND RM-6191 (1970); the limits as ``Fitted.reaches`` and ``Fitted.mean_time``.
    """
    least = whole("pieces asked for", pieces, 1, _MOST) if pieces is not None else 0
    reach = fitted.reaches(target) if target is not None else None
    sight = FURTHER * fitted.made
    at = _piece(reach.piece, sight) if reach is not None else None
    if reach is not None and at is not None and at >= least:
        early, late = max(_piece(reach.earliest, sight) or 1, least), _piece(reach.latest, sight)
        return Until(at, _sum(fitted, at), _sum(fitted, min(early, at)),
                     _sum(fitted, max(at, late)) if late is not None else None, True)
    if not least:
        return None
    band = [fitted.mean_time(piece)[1] for piece in range(1, least + 1)]
    return Until(least, _sum(fitted, least), fsum(limits.low for limits in band),
                 fsum(limits.high for limits in band), at is not None)


def _piece(place: float | None, sight: int) -> int | None:
    """The first whole piece at or after a place on the curve; none where that is not in sight."""
    return ceil(place - _EVEN) if place is not None and place <= sight else None


def _sum(fitted: Fitted, pieces: int) -> float:
    return total_time(fitted.first, fitted.rate, pieces)
