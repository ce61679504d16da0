"""A test that ends as soon as an apprentice is clearly good enough, or clearly not yet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import whole
from site_builder.skills.proof.demands import between, verdicts

Verdict = Literal["ready", "not ready", "go on"]

_HAIR = 1e-9
"""A line met to the last digit is met."""


@dataclass(frozen=True, slots=True)
class Plan:
    """What is tested: the share of faults of a ``ready`` hand and that of an ``unready`` one, which is more;
    the ``risk_refused`` of holding back a ready hand and the ``risk_passed`` of letting an unready one go on.

    Raises ``Impossible`` for shares or risks that leave nothing to test.
    Source: A. Wald, Sequential analysis (1947), chapter 5, by Wald's own approximate bounds, with which each
    risk is hardly ever more than stated, and their sum never.
    """

    ready: float
    unready: float
    risk_refused: float = 0.05
    risk_passed: float = 0.10

    def __post_init__(self) -> None:
        between("faults of a ready hand", self.ready)
        between("faults of an unready hand", self.unready)
        between("risk of refusing a ready hand", self.risk_refused)
        between("risk of passing an unready hand", self.risk_passed)
        if self.unready <= self.ready:
            raise Impossible("faults of an unready hand", "share", self.unready, "must be more than of a ready one")
        if self.risk_refused + self.risk_passed >= 1:
            raise Impossible("both risks together", "share", self.risk_refused + self.risk_passed, "must be under 1")

    @property
    def weight(self) -> float:
        """How much more one fault tells than its absence: the natural logarithm of the ratio of odds."""
        return log(self.unready * (1 - self.ready) / (self.ready * (1 - self.unready)))

    @property
    def slope(self) -> float:
        """Faults a piece at which neither side gains: the slope of both lines."""
        return log((1 - self.ready) / (1 - self.unready)) / self.weight

    @property
    def pass_height(self) -> float:
        """How far the line of passing lies below slope times pieces, in faults."""
        return log((1 - self.risk_refused) / self.risk_passed) / self.weight

    @property
    def refuse_height(self) -> float:
        """How far the line of refusing lies above slope times pieces, in faults."""
        return log((1 - self.risk_passed) / self.risk_refused) / self.weight

    def passes_with(self, pieces: int) -> int | None:
        """The most faults with which so many pieces pass; None while even none is too many."""
        most = floor(self.slope * whole("pieces", pieces) - self.pass_height + _HAIR)
        return most if most >= 0 else None

    def refused_with(self, pieces: int) -> int | None:
        """The least faults with which so many pieces are refused; None while there are too few pieces for it."""
        least = ceil(self.slope * whole("pieces", pieces) + self.refuse_height - _HAIR)
        return least if least <= pieces else None

    @property
    def shortest_pass(self) -> int:
        """Pieces without a fault after which the test may first be passed."""
        return ceil(self.pass_height / self.slope - _HAIR)


@dataclass(frozen=True, slots=True)
class Standing:
    """How the test stands: the verdict, the piece it fell at (None while it goes on), what was seen so far."""

    verdict: Verdict
    at: int | None
    pieces: int
    faults: int
    plan: Plan


def judge(good: Sequence[bool], plan: Plan) -> Standing:
    """Go through the pieces in the order they were made and stop where the test ends.

    Pieces after the end are not counted: the verdict has fallen. Raises ``Impossible`` for a verdict that is none.
    Source: as ``Plan``.
    """
    faults = 0
    for piece, sound in enumerate(verdicts("pieces", good), 1):
        faults += not sound
        passing, refusing = plan.passes_with(piece), plan.refused_with(piece)
        if passing is not None and faults <= passing:
            return Standing("ready", piece, piece, faults, plan)
        if refusing is not None and faults >= refusing:
            return Standing("not ready", piece, piece, faults, plan)
    return Standing("go on", None, len(good), faults, plan)
