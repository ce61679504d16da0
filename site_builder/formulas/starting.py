"""How many pieces to start so that enough come out, when every procedure loses some by chance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, exp, fsum, lgamma, log, log1p

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

MOST = 100_000
"""More pieces than this are not reckoned piece by piece."""

_NOTHING = 1e-18
_ROUNDING = 1e-12
"""A chance that is short of what is asked by no more than this is short by rounding only."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What one procedure loses: ``fixed`` pieces each time it is set up, then the ``share`` (0 to 1) of the rest.

    Fixed losses are warm-up castings, torn-up test pieces, retained samples. Raises ``Impossible`` for a share
    that is none, or pieces that are no count.
    """

    share: float
    fixed: int = 0

    def __post_init__(self) -> None:
        guards.share("share lost", self.share)
        guards.whole("pieces lost each time", self.fixed)


def expected_good(started: int, losses: Sequence[Loss]) -> float:
    """Pieces that come out on average of ``started`` pieces, as long as they are more than the fixed losses.

    Raises ``Impossible`` for a count that is none. Source: mean of a binomial number, step by step.
    """
    left = float(guards.whole("pieces started", started))
    for loss in losses:
        left = max(left - loss.fixed, 0.0) * (1 - float(loss.share))
    return left


def chance_of_enough(started: int, wanted: int, losses: Sequence[Loss]) -> float:
    """The chance (0 to 1) that at least ``wanted`` good pieces come out of ``started``.

    Each piece is lost or not by itself, by the share of the procedure; the losses of all procedures are run
    through exactly, not by an average. Raises ``Impossible`` for counts that are none or too many to reckon.
    Source: binomial and negative binomial distribution, e.g. Johnson, Kemp and Kotz, Univariate Discrete
    Distributions; between procedures with fixed losses the exact convolution.
    """
    guards.whole("pieces started", started)
    guards.whole("pieces wanted", wanted)
    if max(started, wanted) > MOST:
        raise Impossible("pieces", "count", max(started, wanted), f"must be at most {MOST}")
    *before, (passed, fixed) = _legs(losses)
    good = {started: 1.0}
    for share, lost in before:
        good = _through(good, share, lost)
    return min(fsum(weight * _at_least(max(n - fixed, 0), wanted, passed) for n, weight in good.items()), 1.0)


def pieces_to_start(wanted: int, losses: Sequence[Loss], confidence: float = 0.95) -> int:
    """The fewest pieces to start so that ``wanted`` good ones come out with the chance ``confidence`` (0 to 1).

    Dividing by the yield gives enough in only about half of the batches; this is more. Raises ``Impossible`` for
    counts that are none, a confidence of 0 or 1, or losses that let nothing through. Source: as
    ``chance_of_enough``; for one procedure it is the sample size of the negative binomial distribution.
    """
    guards.whole("pieces wanted", wanted)
    if not 0 < guards.finite("confidence", "share", confidence) < 1:
        raise Impossible("confidence", "share", confidence, "must lie between 0 and 1, neither of them")
    asked = confidence * (1 - _ROUNDING)
    through = 1.0
    for loss in losses:
        through *= guards.kept_share("share that comes through", 1 - float(loss.share))
    short = wanted + sum(loss.fixed for loss in losses) - 1
    enough = max(ceil(wanted / through), 1)
    while chance_of_enough(min(enough, MOST), wanted, losses) < asked:
        if enough >= MOST:
            raise Impossible("pieces wanted", "count", wanted, f"would need more than {MOST} pieces to be started")
        short, enough = max(short, enough), enough * 2
    # The chance only rises with the pieces started, so the fewest lies where it first is high enough.
    enough = min(enough, MOST)
    short = min(short, enough - 1)
    while enough - short > 1:
        middle = (short + enough) // 2
        if chance_of_enough(middle, wanted, losses) < asked:
            short = middle
        else:
            enough = middle
    return max(enough, 0) if wanted else 0


def _legs(losses: Sequence[Loss]) -> list[tuple[float, int]]:
    """Share that passes and fixed loss before it, with procedures that only lose a share drawn together."""
    legs: list[tuple[float, int]] = []
    for loss in losses:
        passed = 1 - float(loss.share)
        if legs and not loss.fixed:
            legs[-1] = (legs[-1][0] * passed, legs[-1][1])
        else:
            legs.append((passed, loss.fixed))
    return legs or [(1.0, 0)]


def _through(good: dict[int, float], passed: float, fixed: int) -> dict[int, float]:
    """How many are good after one more procedure, each number with its chance."""
    after: dict[int, float] = {}
    for n, weight in good.items():
        left = max(n - fixed, 0)
        for k in range(left, -1, -1):
            chance = _binomial(left, k, passed)
            if chance * weight > _NOTHING:
                after[k] = after.get(k, 0.0) + weight * chance
            elif k < left * passed:
                break
    return after


def _at_least(n: int, wanted: int, passed: float) -> float:
    """The chance that of ``n`` at least ``wanted`` pass; summed over the shorter side."""
    if wanted <= 0:
        return 1.0
    if n < wanted:
        return 0.0
    if passed <= 0 or passed >= 1:
        return float(passed >= 1)
    return _from_to(n, wanted, n, passed) if n - wanted < wanted else 1 - _from_to(n, 0, wanted - 1, passed)


def _from_to(n: int, low: int, high: int, passed: float) -> float:
    """The chance that ``low`` to ``high`` pass: from the likeliest of them outwards, as long as it adds anything."""
    top = min(max(int((n + 1) * passed), low), high)
    most = _binomial(n, top, passed)
    odds, least, found, chance = passed / (1 - passed), most * _NOTHING, [most], most
    for k in range(top, high):
        chance *= (n - k) / (k + 1) * odds
        if chance < least:
            break
        found.append(chance)
    chance = most
    for k in range(top, low, -1):
        chance *= k / ((n - k + 1) * odds)
        if chance < least:
            break
        found.append(chance)
    return fsum(found)


def _binomial(n: int, k: int, passed: float) -> float:
    if passed <= 0 or passed >= 1:
        return float(k == (n if passed >= 1 else 0))
    return exp(lgamma(n + 1) - lgamma(k + 1) - lgamma(n - k + 1) + k * log(passed) + (n - k) * log1p(-passed))
