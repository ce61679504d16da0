"""How the time a piece takes falls with practice: every doubling of pieces takes the same share off.

Two forms are in print and must not be mixed. In the *unit* form (Crawford) the time of the piece itself falls
to ``rate`` of itself with each doubling; in the *cumulative average* form (Wright) the average of all pieces
so far does. At 80 % the second piece takes 0.8 of the first in the one and 0.6 in the other.

Sources: T. P. Wright, J. Aeronaut. Sci. 3 (1936) 122; J. R. Crawford, as tabled in RAND RM-6191 (1970).
"""

from __future__ import annotations

from math import fsum, log, log2
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import MOST_PIECES, above_zero, one_of, whole

Form = Literal["unit", "cumulative average"]
FORMS: tuple[Form, ...] = ("unit", "cumulative average")
_ONE_BY_ONE = 2000
"""Pieces that are summed one by one; the rest by Euler's and Maclaurin's formula, to the machine's last digits."""


def slope(rate: float) -> float:
    """The exponent of a rate: log2(rate), 0 for no learning. The rate is a share above 0, as a rule under 1.

    Raises ``Impossible`` for a rate of nothing. Source: as the module.
    """
    return log2(above_zero("learning rate", "share", rate))


def rate_from(piece: int, took: float, later: int, later_took: float) -> float:
    """The learning rate, a share, that leads from the time of one piece to that of a later one, in the unit form.

    Both times in one unit. Two pieces make a rate and no proof: what one good or bad day does to it, only more pieces
    tell. Raises ``Impossible`` for times of nothing or a later piece that is none. Source: the unit form solved for
    its rate, (t₂ / t₁) to the power of 1 / log2(n₂ / n₁), as the module.
    """
    whole("piece", piece, 1)
    whole("later piece", later, piece + 1)
    fall = above_zero("time of the later piece", "", later_took) / above_zero("time of the piece", "", took)
    return float(fall ** (1 / log2(later / piece)))


def piece_time(first: float, rate: float, piece: int, form: Form = "unit") -> float:
    """Time of a piece, in the unit of the ``first`` piece's time.

    Raises ``Impossible`` for a time or rate of nothing or a piece before the first. Source: as the module.
    """
    above_zero("time of the first piece", "", first)
    whole("piece", piece, 1)
    b = slope(rate)
    if one_of("form of the curve", form, FORMS) == "unit":
        return float(first * piece**b)
    return float(first * (piece ** (1 + b) - ((piece - 1) ** (1 + b) if piece > 1 else 0.0)))


def total_time(first: float, rate: float, pieces: int, form: Form = "unit") -> float:
    """Time of all pieces from the first on, in the unit of ``first``.

    Raises ``Impossible`` as ``piece_time``. Source: as the module.
    """
    above_zero("time of the first piece", "", first)
    whole("pieces", pieces, 1)
    b = slope(rate)
    if one_of("form of the curve", form, FORMS) == "unit":
        return first * _summed(1, pieces, b)
    return float(first * pieces ** (1 + b))


def average_time(first: float, rate: float, pieces: int, form: Form = "unit") -> float:
    """Time a piece on average over all from the first on.

    Raises ``Impossible`` as ``piece_time``. Source: as the module.
    """
    return total_time(first, rate, pieces, form) / pieces


def lot_midpoint(first_piece: int, last_piece: int, rate: float) -> float:
    """The piece, seldom a whole one, that takes as long as the lot's pieces on average, in the unit form.

    Exact by summing; printed tables and calculators that integrate instead differ in the third decimal.
    Raises ``Impossible`` for a lot that ends before it begins. Source: RAND RM-6191 (1970), unit curve midpoints.
    """
    whole("first piece of the lot", first_piece, 1)
    whole("last piece of the lot", last_piece, first_piece)
    b = slope(rate)
    if abs(b) < 1e-9:  # without learning every piece takes as long, and the middle is the limit of the rest
        return (first_piece + last_piece) / 2
    # reckoned against the piece that takes longest, so that no power vanishes however steep the curve
    longest = first_piece if b < 0 else last_piece
    mean = _summed(first_piece, last_piece, b, longest) / (last_piece - first_piece + 1)
    return float(longest * mean ** (1 / b))


def _summed(first: int, last: int, b: float, over: int = 1) -> float:
    """The sum of (n / over)^b from the first to the last n."""
    near = min(last, max(first, abs(int(b)) * _ONE_BY_ONE) + _ONE_BY_ONE)
    found = fsum((n / over) ** b for n in range(first, near + 1))
    if near == last:
        return found
    low, high = near / over, last / over
    whole_of_it = over * (log(high / low) if b == -1 else (high ** (b + 1) - low ** (b + 1)) / (b + 1))
    ends = (high**b - low**b) / 2
    slopes = b / 12 * (high ** (b - 1) - low ** (b - 1)) / over
    return float(found + whole_of_it + ends + slopes)


def pieces_to(first: float, rate: float, target: float, form: Form = "unit") -> int | None:
    """The first piece that takes no longer than ``target``; None where the rate leads nowhere near it.

    Raises ``Impossible`` for times of nothing. Source: as the module.
    """
    above_zero("time of the first piece", "", first)
    above_zero("time to be reached", "", target)
    one_of("form of the curve", form, FORMS)
    slope(rate)
    if target >= first:
        return 1
    if rate >= 1:
        return None
    if form == "cumulative average" and slope(rate) <= -1:
        raise Impossible("learning rate", "share", rate, "must be more than a half in this form")
    high = 1
    while piece_time(first, rate, high, form) > target * (1 + 1e-12):
        high *= 2
        if high > MOST_PIECES // 2:
            return None
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        if piece_time(first, rate, middle, form) > target * (1 + 1e-12):
            low = middle
        else:
            high = middle
    return high
