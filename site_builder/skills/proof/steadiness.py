"""The moment a hand became steady, seen in a running sum over its pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import finite, not_negative, one_of, whole
from site_builder.skills.proof.demands import figures, verdicts
from site_builder.skills.proof.sequential import Plan


@dataclass(frozen=True, slots=True)
class RunningSum:
    """A one-sided sum after each value, and for how many values on end it has been above nothing."""

    sums: tuple[float, ...]
    runs: tuple[int, ...]

    def first_over(self, limit: float) -> int | None:
        """The first value, counted from 1, at which the sum is over the limit."""
        finite("limit", "", limit)
        return next((i for i, s in enumerate(self.sums, 1) if s > limit), None)

    def began(self, at: int) -> int:
        """The value, counted from 1, at which the rise that is seen at value ``at`` began."""
        return at - self.runs[whole("value", at, 1, len(self.runs)) - 1] + 1


def running_sum(values: Sequence[float], target: float, slack: float, side: Literal["up", "down"]) -> RunningSum:
    """The tabular cumulative sum: what lies beyond target and slack is added, the sum never falls under nothing.

    ``slack`` is in the unit of the values. Raises ``Impossible`` for no values or slack under 0.
    Source: E. S. Page, Biometrika 41 (1954) 100, in the tabular form of D. C. Montgomery's textbooks.
    """
    figures("values", "", values, 1)
    finite("target", "", target)
    not_negative("slack", "", slack)
    one_of("side", side, ("up", "down"))
    total, run = 0.0, 0
    sums, runs = [], []
    for value in values:
        beyond = value - target if side == "up" else target - value
        total = max(0.0, total + beyond - slack)
        run = run + 1 if total > 0 else 0
        sums.append(total)
        runs.append(run)
    return RunningSum(tuple(sums), tuple(runs))


@dataclass(frozen=True, slots=True)
class Turn:
    """A change of the hand: ``to`` what, ``since`` which piece most likely, ``seen`` at which piece."""

    to: Literal["steady", "unsteady"]
    since: int
    seen: int


@dataclass(frozen=True, slots=True)
class Steadiness:
    """Every turn in order, and the sum after each piece against the ``limit`` at which a turn is called.

    ``sums`` are in faults: while unsteady the sum of good work, after a turn that of bad.
    """

    turns: tuple[Turn, ...]
    sums: tuple[float, ...]
    limit: float

    @property
    def since(self) -> int | None:
        """The piece since which the hand is steady; None while it is not."""
        return self.turns[-1].since if self.turns and self.turns[-1].to == "steady" else None


def steadiness(good: Sequence[bool], ready: float, unready: float, false_once_in: float = 200) -> Steadiness:
    """When the hand turned from a share of faults ``unready`` to ``ready``, and whether it has turned back.

    A hand starts unsteady. A turn is called when a running sum of the evidence passes a limit so high that a
    hand which has not turned would be called so no more often than once in ``false_once_in`` pieces on
    average; the sum then begins anew for the other turn. The hand most likely turned right after the piece
    at which the sum last stood at nothing. Raises ``Impossible`` for shares that leave nothing to tell apart.
    Sources: E. S. Page (1954); G. Lorden, Ann. Math. Statist. 42 (1971) 1897: with log likelihood ratios a
    limit of ln n keeps false calls at least n apart on average.
    """
    plan = Plan(ready, unready)
    if not finite("pieces between false calls", "count", false_once_in) > 1:
        raise Impossible("pieces between false calls", "count", false_once_in, "must be more than 1")
    limit = log(false_once_in) / plan.weight
    turns: list[Turn] = []
    sums: list[float] = []
    begun = 0
    verdicts("pieces", good)
    while begun < len(good):
        steady = len(turns) % 2 == 1
        faults = [float(not sound) for sound in good[begun:]]
        watched = running_sum(faults, plan.slope, 0.0, "up" if steady else "down")
        seen = watched.first_over(limit)
        sums += watched.sums[:seen]
        if seen is None:
            break
        turns.append(Turn("unsteady" if steady else "steady", begun + watched.began(seen), begun + seen))
        begun += seen
    return Steadiness(tuple(turns), tuple(sums), limit)
