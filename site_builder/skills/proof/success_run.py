"""How many pieces without a fault prove a share, and how many more are due.

Two formulas are in print and differ by one piece. The *classical* one asks that a hand which is only just
not good enough would pass with at most the stated risk: 59 pieces without a fault for 95 % at 95 %. The one
with a *uniform prior* ("n + 1") begins by holding every share equally likely, which is as much as one good
piece given for nothing: 58. The classical is used unless the other is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from site_builder.formulas.guards import one_of, whole
from site_builder.skills.proof.chances import binomial_at_most
from site_builder.skills.proof.demands import between, counted
from site_builder.skills.proof.pieces import clopper_pearson_at_least

Formula = Literal["classical", "uniform prior"]
_FORMULAS: tuple[Formula, ...] = ("classical", "uniform prior")

_EVEN = 1 + 1e-12
"""A risk met to the last digit is met: 1 - 0.9 is a hair under a tenth to the machine."""


@dataclass(frozen=True, slots=True)
class Due:
    """Where an apprentice stands: pieces ``made`` and ``faults`` among them, ``needed`` in all with that many
    faults, ``more`` from here if none of them fails, and the share good that is ``shown`` already."""

    share: float
    confidence: float
    formula: Formula
    made: int
    faults: int
    needed: int
    more: int
    shown: float

    @property
    def proved(self) -> bool:
        """Whether nothing is due any more."""
        return self.more == 0


def pieces_needed(share: float, confidence: float, faults: int = 0, formula: Formula = "classical") -> int:
    """The least number of pieces that proves ``share`` good at ``confidence`` with so many faults among them.

    Raises ``Impossible`` unless share and confidence lie between 0 and 1.
    Source: zero-failure run n = ln(1 - C) / ln R and its binomial extension to some failures, reliability
    textbooks; with the uniform prior the same with n + 1 for n.
    """
    between("share to be proved", share)
    between("confidence", confidence)
    whole("faults", faults)
    one_of("formula", formula, _FORMULAS)
    risk = (1 - confidence) * _EVEN

    def proves(pieces: int) -> bool:
        return binomial_at_most(faults, pieces, 1 - share) <= risk

    most = faults + 1
    while not proves(most):
        most *= 2
    least = faults  # so few never prove: each of them could be a fault
    while most - least > 1:
        middle = (most + least) // 2
        least, most = (least, middle) if proves(middle) else (middle, most)
    return most if formula == "classical" else max(most - 1, faults)


def share_shown(made: int, confidence: float, faults: int = 0, formula: Formula = "classical") -> float:
    """The share good that ``made`` pieces with so many faults prove at ``confidence``.

    Raises ``Impossible`` for more faults than pieces.
    Source: (1 - C)^(1/n) for no fault; one-sided Clopper-Pearson limit otherwise; with the uniform prior the
    same with one more good piece.
    """
    whole("pieces made", made, 1)
    counted("faults", faults, made, "pieces made")
    one_of("formula", formula, _FORMULAS)
    free = 0 if formula == "classical" else 1
    return clopper_pearson_at_least(made - faults + free, made + free, confidence)


def pieces_due(share: float, confidence: float, made: int, faults: int, formula: Formula = "classical") -> Due:
    """How many more pieces, if none of them fails, prove the share.

    All pieces count, from the first. Whoever leaves out the bad beginning must say so before he looks at the
    rest; a start picked afterwards proves nothing. Raises ``Impossible`` for more faults than pieces.
    Source: as ``pieces_needed``.
    """
    whole("pieces made", made)
    counted("faults", faults, made, "pieces made")
    needed = pieces_needed(share, confidence, faults, formula)
    shown = share_shown(made, confidence, faults, formula) if made else 0.0
    return Due(share, confidence, formula, made, faults, needed, max(0, needed - made), shown)
