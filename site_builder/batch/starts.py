"""How many pieces of a part to start, and how many of them come to each procedure of its way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from site_builder.batch.leg import Leg
from site_builder.batch.losses import Fixed
from site_builder.formulas.starting import Loss, expected_good, pieces_to_start
from site_builder.formulas.used_up import fresh_ones
from site_builder.formulas.yields import rolled_yield

_ROUNDS = 6
"""The fixed losses hang on the number started and the other way round; this settles within a few rounds."""


@dataclass(frozen=True, slots=True)
class Starts:
    """``started`` pieces, of which on average ``coming[i]`` come to procedure i and ``good`` reach the end.

    ``lost`` are the pieces that procedure i keeps or throws back however good they are. ``right_first`` is the share
    that goes right everywhere at the first try, by the procedures that tell their loss.
    """

    started: int
    coming: tuple[Fraction, ...]
    lost: tuple[int, ...]
    good: Fraction
    right_first: float


def starts(legs: Sequence[Leg], wanted: int, confidence: float) -> Starts:
    """The fewest pieces to start so that ``wanted`` come out with this chance (0 to 1).

    Procedures that do not tell their loss lose nothing here. Raises ``Impossible`` as ``pieces_to_start``.
    """
    lost = tuple(0 for _ in legs)
    started = 0
    for _ in range(_ROUNDS):
        found = _fewest(legs, lost, wanted, confidence)
        coming = _coming(found, _losses(legs, lost))
        needed = tuple(sum(_pieces(one, leg, n) for one in leg.fixed) for leg, n in zip(legs, coming, strict=False))
        if found <= started and needed == lost:
            break
        started, lost = max(found, started), needed
    losses = _losses(legs, lost)
    tellers = [leg for leg in legs if leg.scrap is not None or leg.rework]
    first = rolled_yield(float(max(1 - (leg.scrap or Fraction(0)) - leg.rework, Fraction(0))) for leg in tellers)
    return Starts(started, _coming(started, losses)[:-1], lost, _coming(started, losses)[-1], first)


def _fewest(legs: Sequence[Leg], lost: Sequence[int], wanted: int, confidence: float) -> int:
    """Pieces to start. What later procedures keep or throw back is asked for on top of ``wanted``.

    That is a piece or so more than the exact reckoning gives, never less, and thousands of pieces are reckoned at once.
    """
    through = 1.0
    for leg in legs:
        through *= 1 - float(leg.scrap or 0)
    return pieces_to_start(wanted + sum(lost[1:]), [Loss(1 - through, lost[0])], confidence)


def loses_any(legs: Sequence[Leg]) -> bool:
    """Whether anything at all is lost on the way."""
    return any(leg.scrap or leg.fixed for leg in legs)


def lots_of(leg: Leg, pieces: Fraction) -> int:
    """How often the work is begun: once, or once for every lot where it goes by lots of a known size."""
    return max(ceil(pieces / leg.lot), 1) if leg.lot else 1


def _losses(legs: Sequence[Leg], lost: Sequence[int]) -> list[Loss]:
    return [Loss(float(leg.scrap or 0), fixed) for leg, fixed in zip(legs, lost, strict=True)]


def _coming(started: int, losses: Sequence[Loss]) -> tuple[Fraction, ...]:
    """Pieces before each procedure, and after the last; floating-point dust is left out."""
    return tuple(Fraction(round(expected_good(started, losses[:n]), 6)) for n in range(len(losses) + 1))


def _pieces(one: Fixed, leg: Leg, pieces: Fraction) -> int:
    if one.every is None:
        return one.count * lots_of(leg, pieces)
    # the first of them is due when so many are made, as of a tool that was new at the start
    return one.count * fresh_ones(float(pieces), one.every)
