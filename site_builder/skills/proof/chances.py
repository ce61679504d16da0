"""Chances and quantiles of the few distributions that proofs in a workshop stand on.

Written out here, because each is a dozen lines of classical mathematics, and a library that holds them would
weigh many times the rest of the program and slow every command down. The tests hold them against such a library.

Sources: Abramowitz and Stegun, Handbook of mathematical functions (1964), 26.5 incomplete beta function,
26.4 chi-square, 26.7 Student, 26.6 variance ratio; the continued fractions are run through by Lentz's method.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import erfc, exp, inf, lgamma, log, log1p, sqrt
from statistics import NormalDist

from site_builder.formulas.guards import above_zero, finite, share, whole, within
from site_builder.skills.proof.demands import between

_TINY, _ENOUGH, _MOST_TERMS = 1e-300, 1e-15, 100_000
_FREEDOM = (0.01, 1e6)
"""Degrees of freedom of chi-square that any count of a shop comes to, and that are reckoned in an instant."""


def normal_quantile(share: float) -> float:
    """The point of the standard normal curve that leaves ``share`` (between 0 and 1) below it.

    Raises ``Impossible`` for a share that is none. Source: as any printed table of the normal curve.
    """
    return NormalDist().inv_cdf(between("share", share))


def normal_above(point: float) -> float:
    """The share of the standard normal curve above a point; keeps its digits far out.

    Raises ``Impossible`` for what is no number. Source: Abramowitz and Stegun, 26.2.
    """
    return erfc(finite("point", "", point) / sqrt(2)) / 2


def beta_below(point: float, first: float, second: float) -> float:
    """The share of a beta distribution below ``point`` (0 to 1): the regularised incomplete beta function.

    Raises ``Impossible`` for shapes of nothing. Source: Abramowitz and Stegun, 26.5.8.
    """
    above_zero("first shape", "", first)
    above_zero("second shape", "", second)
    finite("point", "", point)
    if point <= 0 or point >= 1:
        return 0.0 if point <= 0 else 1.0
    front = exp(lgamma(first + second) - lgamma(first) - lgamma(second) + first * log(point) + second * log1p(-point))
    # The fraction converges fast on the near side of the mean; the far side is what is left of the whole.
    if point < (first + 1) / (first + second + 2):
        return min(1.0, front * _beta_fraction(point, first, second) / first)
    return max(0.0, 1 - front * _beta_fraction(1 - point, second, first) / second)


def _beta_fraction(point: float, first: float, second: float) -> float:
    c, d = 1.0, 1 / _off_zero(1 - (first + second) * point / (first + 1))
    value = d
    for m in range(1, _MOST_TERMS):
        even = m * (second - m) * point / ((first + 2 * m - 1) * (first + 2 * m))
        odd = -(first + m) * (first + second + m) * point / ((first + 2 * m) * (first + 2 * m + 1))
        step = 1.0
        for term in (even, odd):
            d, c = 1 / _off_zero(1 + term * d), _off_zero(1 + term / c)
            step = c * d
            value *= step
        if abs(step - 1) < _ENOUGH:
            break
    return value


def beta_quantile(share: float, first: float, second: float) -> float:
    """The point of a beta distribution that leaves ``share`` below it.

    Raises ``Impossible`` as ``beta_below``; source there.
    """
    between("share", share)
    return _invert(lambda x: beta_below(x, first, second), share, 0.0, 1.0)


def binomial_at_most(most: int, tries: int, chance: float) -> float:
    """The chance of ``most`` hits or fewer in ``tries``, each with the same chance (0 to 1).

    Raises ``Impossible`` for tries that are no count. Source: Abramowitz and Stegun, 26.5.24.
    """
    whole("tries", tries)
    share("chance", chance)
    whole("hits", most, -1)
    if most < 0:
        return 0.0
    if most >= tries or chance <= 0:
        return 1.0
    # Both ways round are the same function; from 1 - chance small tails keep their digits.
    return beta_below(1 - chance, tries - most, most + 1)


def student_above(point: float, freedom: float) -> float:
    """The share of Student's t above a point, with ``freedom`` degrees (need not be whole).

    Raises ``Impossible`` for no freedom. Source: Abramowitz and Stegun, 26.7.1.
    """
    above_zero("degrees of freedom", "", freedom)
    square = finite("point", "", point) ** 2
    if square < 1:  # near the middle the piece between keeps the digits, far out the tail does
        between_them = beta_below(square / (freedom + square), 0.5, freedom / 2) / 2
        return 0.5 - between_them if point >= 0 else 0.5 + between_them
    tail = beta_below(freedom / (freedom + square), freedom / 2, 0.5) / 2
    return tail if point > 0 else 1 - tail


@lru_cache(maxsize=1024)
def student_quantile(share: float, freedom: float) -> float:
    """The point of Student's t that leaves ``share`` below it.

    Raises ``Impossible`` as ``student_above``; source there.
    """
    between("share", share)
    above_zero("degrees of freedom", "", freedom)
    if share == 0.5:
        return 0.0
    if share < 0.5:
        return -student_quantile(1 - share, freedom)
    far = 2.0
    while student_above(far, freedom) > 1 - share:
        far *= 2
    return _invert(lambda t: -student_above(t, freedom), share - 1, 0.0, far)


def variance_ratio_above(ratio: float, upper: float, lower: float) -> float:
    """The share of Fisher's F above a ratio of variances with so many degrees of freedom above and below.

    Raises ``Impossible`` for no freedom. Source: Abramowitz and Stegun, 26.6.2.
    """
    above_zero("degrees of freedom above", "", upper)
    above_zero("degrees of freedom below", "", lower)
    if ratio != inf:
        finite("ratio of variances", "", ratio)
    if ratio <= 0:
        return 1.0
    return beta_below(lower / (lower + upper * ratio), lower / 2, upper / 2) if ratio < inf else 0.0


def chi_square_below(point: float, freedom: float) -> float:
    """The share of chi-square below a point.

    Raises ``Impossible`` for no freedom. Source: Abramowitz and Stegun, 26.4, by series near and fraction far.
    """
    within("degrees of freedom", "", freedom, *_FREEDOM)
    finite("point", "", point)
    if point <= 0:
        return 0.0
    shape, x = freedom / 2, point / 2
    front = exp(shape * log(x) - x - lgamma(shape))
    if x < shape + 1:
        term = total = 1 / shape
        for n in range(1, _MOST_TERMS):
            term *= x / (shape + n)
            total += term
            if term < total * _ENOUGH:
                break
        return min(1.0, front * total)
    b = x + 1 - shape
    c, d = 1 / _TINY, 1 / b
    value = d
    for n in range(1, _MOST_TERMS):
        part = n * (shape - n)
        b += 2
        d, c = 1 / _off_zero(part * d + b), _off_zero(b + part / c)
        value *= c * d
        if abs(c * d - 1) < _ENOUGH:
            break
    return max(0.0, 1 - front * value)


def chi_square_quantile(share: float, freedom: float) -> float:
    """The point of chi-square that leaves ``share`` below it.

    Raises ``Impossible`` as ``chi_square_below``; source there.
    """
    between("share", share)
    within("degrees of freedom", "", freedom, *_FREEDOM)
    far = freedom + 4 * sqrt(2 * freedom)
    while chi_square_below(far, freedom) < share:
        far *= 2
    return _invert(lambda x: chi_square_below(x, freedom), share, 0.0, far)


def _off_zero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY


def _invert(rising: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Where a rising function takes a value: regula falsi with the Illinois halving, ended by halving alone.

    Halving alone would need fifty evaluations; this needs about ten, and pages hold hundreds of limits.
    """
    at_low, at_high = rising(low) - wanted, rising(high) - wanted
    for turn in range(200):
        if at_low >= 0:
            return low
        if at_high <= 0:
            return high
        straight = high - at_high * (high - low) / (at_high - at_low)
        middle = straight if turn % 3 and low < straight < high else (low + high) / 2
        here = rising(middle) - wanted
        if here == 0 or high - low <= 4e-16 * abs(high):
            return middle
        if here < 0:
            low, at_low = middle, here
            at_high = at_high / 2 if turn % 3 else at_high
        else:
            high, at_high = middle, here
            at_low = at_low / 2 if turn % 3 else at_low
    return (low + high) / 2
