"""Whether a measured value or a time has moved since a way of working was changed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, sqrt
from statistics import fmean, median, variance
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.chances import normal_above, normal_quantile, student_above, student_quantile
from site_builder.skills.proof.demands import between, figures

EXACT_UP_TO = 49
"""Values on a side up to which ranks without ties are counted out, as R does."""

MANY = 15
"""Values on each side from which means are trusted whatever the shape (common practice)."""


@dataclass(frozen=True, slots=True)
class Moved:
    """The ``shift`` since the change (since less before, in the unit of the values), its limits, and the
    ``luck``: how often so much or more, either way, comes with no change at all.

    ``covers``: how often such limits hold the truth, which for few ranks cannot be as often as was asked for.
    ``statistic`` is Welch's t with its ``freedom``, or the rank sum's U of the values since (freedom None).
    """

    test: Literal["Welch", "Mann-Whitney"]
    shift: float
    limits: Interval
    luck: float
    statistic: float
    freedom: float | None
    before: int
    since: int
    covers: float


def welch(before: Sequence[float], since: Sequence[float], confidence: float = 0.95) -> Moved:
    """Difference of means when spreads may differ: Welch's t test and interval.

    Raises ``Impossible`` for fewer than two values on a side, or no spread at all.
    Source: B. L. Welch, Biometrika 34 (1947) 28, with Satterthwaite's degrees of freedom.
    """
    figures("values before", "", before, 2)
    figures("values since", "", since, 2)
    between("confidence", confidence)
    one, two = variance(before) / len(before), variance(since) / len(since)
    if not one + two > 0:
        raise Impossible("values", "", "without any spread", "must differ somewhere")
    shift = fmean(since) - fmean(before)
    freedom = (one + two) ** 2 / (one**2 / (len(before) - 1) + two**2 / (len(since) - 1))
    t = shift / sqrt(one + two)
    off = student_quantile((1 + confidence) / 2, freedom) * sqrt(one + two)
    luck = 2 * student_above(abs(t), freedom)
    return Moved("Welch", shift, Interval(shift - off, shift + off), luck, t, freedom, len(before), len(since),
                 confidence)


def mann_whitney(before: Sequence[float], since: Sequence[float], confidence: float = 0.95) -> Moved:
    """Whether values since tend to be larger or smaller, whatever their shape; for few values or grades.

    The shift is the median of all differences (Hodges and Lehmann) with limits from their order. Counted out
    exactly for up to 49 values a side without ties, else by the normal curve, corrected for ties and
    continuity. Few values cannot give narrow limits: then they run from the least to the greatest difference.
    Raises ``Impossible`` for no values on a side, or values that are all the same.
    Source: H. B. Mann and D. R. Whitney, Ann. Math. Statist. 18 (1947) 50; M. Hollander and D. A. Wolfe,
    Nonparametric statistical methods (1973).
    """
    figures("values before", "", before, 1)
    figures("values since", "", since, 1)
    between("confidence", confidence)
    m, n = len(before), len(since)
    differences = sorted(b - a for a in before for b in since)
    u = sum(1.0 if d > 0 else 0.5 if d == 0 else 0.0 for d in differences)
    ties = Counter([*before, *since]).values()
    risk = (1 - confidence) / 2
    exact = max(ties) == 1 and max(m, n) <= EXACT_UP_TO
    if exact:
        below = _ways_up_to(m, n)
        extreme = min(u, m * n - u)
        luck = min(1.0, 2 * below[int(extreme)] / below[-1])
        place = next(k for k, ways in enumerate(below) if ways > risk * below[-1])
    else:
        total = m + n
        spread = sqrt(m * n / 12 * (total + 1 - sum(t**3 - t for t in ties) / (total * (total - 1))))
        if not spread > 0:
            raise Impossible("values", "", "all the same", "must differ somewhere")
        off = abs(u - m * n / 2)
        luck = min(1.0, 2 * normal_above(max(0.0, off - 0.5) / spread))
        place = floor(m * n / 2 - normal_quantile(1 - risk) * spread + 0.5)
    place = min(max(place, 1), (m * n + 1) // 2)
    if exact:
        covers = max(1 - 2 * below[place - 1] / below[-1], 0.0)
    else:
        covers = 1 - 2 * normal_above((m * n / 2 - place + 0.5) / spread)
    limits = Interval(differences[place - 1], differences[m * n - place])
    return Moved("Mann-Whitney", median(differences), limits, luck, u, None, m, n, covers)


def compare_values(before: Sequence[float], since: Sequence[float], confidence: float = 0.95) -> Moved:
    """The fitting test: means by Welch from 15 values on each side, else ranks, which ask for no shape.

    Raises ``Impossible`` as the test does. Source: common practice for the choice.
    """
    if min(len(before), len(since)) >= MANY:
        return welch(before, since, confidence)
    return mann_whitney(before, since, confidence)


def _ways_up_to(m: int, n: int) -> list[int]:
    """Orders of m and n values with a rank sum U of at most 0, 1, 2 ... m·n, in whole numbers.

    The orders with U exactly u are the coefficients of the product of (1 - x^(n+i)) / (1 - x^i), i from 1 to m.
    """
    ways = [1] + [0] * (m * n)
    for i in range(1, m + 1):
        for u in range(m * n, n + i - 1, -1):
            ways[u] -= ways[u - n - i]
        for u in range(i, m * n + 1):
            ways[u] += ways[u - i]
    for u in range(1, m * n + 1):
        ways[u] += ways[u - 1]
    return ways
