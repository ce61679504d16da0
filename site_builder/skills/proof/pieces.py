"""What share of the pieces is good, judged from those made so far."""

from __future__ import annotations

from math import sqrt

from site_builder.formulas.guards import whole
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.chances import beta_quantile, normal_quantile
from site_builder.skills.proof.demands import between, counted


def clopper_pearson(good: int, made: int, confidence: float = 0.95) -> Interval:
    """Limits of the share good from which the truth strays at most as often as said, whatever the share is.

    Two-sided; wider than need be, never narrower. Raises ``Impossible`` for more good than made, or none made.
    Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404.
    """
    _asked(good, made, confidence)
    risk = (1 - confidence) / 2
    return Interval(_exact_low(good, made, risk), 1 - _exact_low(made - good, made, risk))


def clopper_pearson_at_least(good: int, made: int, confidence: float = 0.95) -> float:
    """The share good that is at least proved, one-sided: what a proof of skill asks for.

    Raises ``Impossible`` for more good than made, or none made. Source: as above.
    """
    _asked(good, made, confidence)
    return _exact_low(good, made, 1 - confidence)


def wilson(good: int, made: int, confidence: float = 0.95) -> Interval:
    """Limits of the share good that hit the truth about as often as said: the better estimate, two-sided.

    Raises ``Impossible`` for more good than made, or none made.
    Source: E. B. Wilson, J. Amer. Statist. Assoc. 22 (1927) 209, without correction for continuity.
    """
    _asked(good, made, confidence)
    z = normal_quantile((1 + confidence) / 2)
    return Interval(_score_low(good, made, z), 1 - _score_low(made - good, made, z))


def wilson_at_least(good: int, made: int, confidence: float = 0.95) -> float:
    """The lower Wilson limit, one-sided.

    Raises ``Impossible`` for more good than made, or none made. Source: as ``wilson``.
    """
    _asked(good, made, confidence)
    return _score_low(good, made, normal_quantile(confidence))


def _asked(good: int, made: int, confidence: float) -> None:
    whole("pieces made", made, 1)
    counted("good pieces", good, made, "pieces made")
    between("confidence", confidence)


def _exact_low(good: int, made: int, risk: float) -> float:
    return beta_quantile(risk, good, made - good + 1) if good else 0.0


def _score_low(good: int, made: int, z: float) -> float:
    if good == 0:
        return min(0.0, z)  # the score limit of none good is exactly nothing
    share, square = good / made, z * z / made
    return (share + square / 2 - z * sqrt(share * (1 - share) / made + square / (4 * made))) / (1 + square)
