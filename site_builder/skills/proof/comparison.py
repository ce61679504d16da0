"""Whether fewer pieces fail since a way of working was changed: counts before against counts since."""

from __future__ import annotations

from dataclasses import dataclass
from math import comb, sqrt

from site_builder.formulas.guards import whole
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.demands import counted
from site_builder.skills.proof.pieces import wilson


@dataclass(frozen=True, slots=True)
class Luck:
    """How often luck alone would deal the failures so, the same hand having made all pieces.

    ``either``: as unlikely a split as this or more so; ``fewer``: so few of them since the change or fewer;
    ``more``: so many or more.
    """

    either: float
    fewer: float
    more: float


@dataclass(frozen=True, slots=True)
class SharesCompared:
    """Failures before and since; the ``difference`` of the shares (since less before) with its limits."""

    failed_before: int
    before: int
    failed_since: int
    since: int
    difference: float
    limits: Interval
    luck: Luck


def difference_limits(part: int, of: int, other: int, other_of: int, confidence: float = 0.95) -> Interval:
    """Limits of the difference of two shares, first less second, from two separate lots of pieces.

    Raises ``Impossible`` for more than there were, or none made.
    Source: R. G. Newcombe, Statist. Med. 17 (1998) 873, method 10, from Wilson limits without correction.
    """
    one, two = wilson(part, of, confidence), wilson(other, other_of, confidence)
    p, q = part / of, other / other_of
    down = sqrt((p - one.low) ** 2 + (two.high - q) ** 2)
    up = sqrt((one.high - p) ** 2 + (q - two.low) ** 2)
    return Interval(max(-1.0, p - q - down), min(1.0, p - q + up))


def fisher_exact(failed_before: int, before: int, failed_since: int, since: int) -> Luck:
    """Fisher's exact test of two lots of pieces, in whole numbers throughout.

    ``either`` sums all splits no likelier than the one seen, as R and most textbooks do.
    Raises ``Impossible`` for more failures than pieces.
    Source: R. A. Fisher, The design of experiments (1935), chapter II.
    """
    whole("pieces before", before)
    whole("pieces since", since)
    counted("failures before", failed_before, before, "pieces before")
    counted("failures since", failed_since, since, "pieces since")
    failed, least = failed_before + failed_since, max(0, failed_before + failed_since - before)
    ways = comb(since, least) * comb(before, failed - least)
    dealt = [ways]
    for k in range(least, min(failed, since)):
        ways = ways * (since - k) * (failed - k) // ((k + 1) * (before - failed + k + 1))
        dealt.append(ways)
    at, every = failed_since - least, sum(dealt)
    return Luck(
        either=sum(w for w in dealt if w <= dealt[at]) / every,
        fewer=sum(dealt[: at + 1]) / every,
        more=sum(dealt[at:]) / every,
    )


def compare_shares(
    failed_before: int, before: int, failed_since: int, since: int, confidence: float = 0.95
) -> SharesCompared:
    """All of it for a change: the difference of the failing shares, its limits, and what luck alone does.

    Raises ``Impossible`` for more failures than pieces, or none made on one side. Source: as the two above.
    """
    limits = difference_limits(failed_since, since, failed_before, before, confidence)
    return SharesCompared(
        failed_before=failed_before,
        before=before,
        failed_since=failed_since,
        since=since,
        difference=failed_since / since - failed_before / before,
        limits=limits,
        luck=fisher_exact(failed_before, before, failed_since, since),
    )
