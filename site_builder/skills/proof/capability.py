"""Whether work that is steady is also close enough: its spread against the tolerance, and how sure that is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt
from statistics import fmean, stdev

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import above_zero, finite, not_negative, whole
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.chances import chi_square_quantile, normal_quantile
from site_builder.skills.proof.control_limits import individuals
from site_builder.skills.proof.demands import between, figures


@dataclass(frozen=True, slots=True)
class Capability:
    """Tolerance over spread of measurements, in their order.

    ``cp`` and ``cpk`` take the spread from one measurement to the next (what the work could do if nothing
    drifted), ``pp`` and ``ppk`` the spread of all (what it did). ``cp`` and ``pp`` tell the spread alone and
    are None for a tolerance with one end; ``cpk`` and ``ppk`` count how far off the middle it lies as well.
    The limits belong to ``pp`` and ``ppk``.
    """

    mean: float
    spread: float
    cp: float | None
    cpk: float
    pp: float | None
    ppk: float
    pp_limits: Interval | None
    ppk_limits: Interval
    measured: int
    outside: int
    confidence: float


def cp(spread: float, lower: float, upper: float) -> float:
    """Tolerance over six spreads, all in one unit.

    Raises ``Impossible`` for a spread of nothing or limits in the wrong order.
    Source: NIST/SEMATECH e-Handbook, 6.1.6.
    """
    finite("lower limit", "", lower)
    if finite("upper limit", "", upper) <= lower:
        raise Impossible("upper limit", "", upper, f"must be more than the lower, {lower:g}")
    return (upper - lower) / (6 * above_zero("spread", "", spread))


def cpk(mean: float, spread: float, lower: float | None, upper: float | None) -> float:
    """Distance from the mean to the nearer limit over three spreads; under 0 with the mean outside.

    Raises ``Impossible`` without any limit or spread. Source: NIST/SEMATECH e-Handbook, 6.1.6.
    """
    finite("mean", "", mean)
    above_zero("spread", "", spread)
    if lower is None and upper is None:
        raise Impossible("limits", "", "none", "must be one at least")
    low = inf if lower is None else mean - finite("lower limit", "", lower)
    high = inf if upper is None else finite("upper limit", "", upper) - mean
    return min(low, high) / (3 * spread)


def cp_limits(value: float, measured: int, confidence: float = 0.95) -> Interval:
    """Limits of a Cp or Pp whose spread is the usual one of so many measurements; exact for normal spread.

    Raises ``Impossible`` for fewer than two measurements.
    Source: the chi-square interval of D. C. Montgomery, Introduction to statistical quality control.
    """
    not_negative("index", "", value)
    freedom = whole("measurements", measured, 2) - 1
    risk = (1 - between("confidence", confidence)) / 2
    return Interval(
        value * sqrt(chi_square_quantile(risk, freedom) / freedom),
        value * sqrt(chi_square_quantile(1 - risk, freedom) / freedom),
    )


def cpk_limits(value: float, measured: int, confidence: float = 0.95) -> Interval:
    """Limits of a Cpk or Ppk from so many measurements, approximately.

    Raises ``Impossible`` for fewer than two measurements.
    Source: A. F. Bissell, Appl. Statist. 39 (1990) 331.
    """
    finite("index", "", value)
    whole("measurements", measured, 2)
    z = normal_quantile((1 + between("confidence", confidence)) / 2)
    off = z * sqrt(1 / (9 * measured) + value**2 / (2 * (measured - 1)))
    return Interval(value - off, value + off)


def capability(
    values: Sequence[float], lower: float | None, upper: float | None, confidence: float = 0.95
) -> Capability:
    """All of it for measurements in the order they were taken and a tolerance with one or two ends, in one unit.

    Means little while the work is not steady (see ``control_limits``). Raises ``Impossible`` for fewer than two
    measurements, for measurements that do not differ, and without any limit.
    Source: as the functions above.
    """
    figures("measurements", "", values, 2)
    mean, overall, within = fmean(values), stdev(values), individuals(values).spread
    two_ended = (lower, upper) if lower is not None and upper is not None else None
    pp = cp(overall, *two_ended) if two_ended else None
    ppk = cpk(mean, overall, lower, upper)
    out = sum((lower is not None and v < lower) or (upper is not None and v > upper) for v in values)
    return Capability(
        mean=mean,
        spread=overall,
        cp=cp(within, *two_ended) if two_ended else None,
        cpk=cpk(mean, within, lower, upper),
        pp=pp,
        ppk=ppk,
        pp_limits=None if pp is None else cp_limits(pp, len(values), confidence),
        ppk_limits=cpk_limits(ppk, len(values), confidence),
        measured=len(values),
        outside=out,
        confidence=confidence,
    )
