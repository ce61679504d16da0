"""Limits of single measurements, capability and gauge studies."""

from __future__ import annotations

from statistics import NormalDist, fmean, stdev

from site_builder.formulas.interval import Interval
from site_builder.skills.proof.capability import capability, cp, cp_limits, cpk, cpk_limits
from site_builder.skills.proof.control_limits import individuals
from site_builder.skills.proof.gauge_study import gauge_study
from site_builder.skills.proof.subgroups import Charted, factors, mean_and_deviation, mean_and_range
from tests.outside.registry import Topic, reference

TOPIC = Topic("measurements", "Measurements")

ONE_STEP = [0.0, 1.0]
"""Two measurements with a moving range of 1."""


@TOPIC.check(individuals, "flow-mean")
def mean(x: list[float]) -> float:
    return individuals(x).mean


@TOPIC.check(individuals, "flow-mrbar")
def mean_range(x: list[float]) -> float:
    return individuals(x).range_mean


@TOPIC.check(individuals, "flow-ucl")
def upper(x: list[float]) -> float:
    return individuals(x).upper


@TOPIC.check(individuals, "flow-lcl")
def lower(x: list[float]) -> float:
    return individuals(x).lower


@TOPIC.check(individuals, "E2")
def factor_of_limits() -> float:
    return individuals(ONE_STEP).upper - individuals(ONE_STEP).mean


@TOPIC.check(individuals, "D4mr", "D4-2")
def factor_of_ranges() -> float:
    return individuals(ONE_STEP).range_upper


@TOPIC.check(individuals, "d2-2")
def factor_of_spread() -> float:
    return 1 / individuals(ONE_STEP).spread


@TOPIC.check(cp, "cp-nist")
@TOPIC.check(cpk, "cp-nist")
def both_indices(USL: float, LSL: float, mean: float, s: float) -> list[float]:  # noqa: N803
    return [cp(s, LSL, USL), cpk(mean, s, LSL, USL)]


@TOPIC.check(cp, "cp-rod")
def spread_alone(USL: float, LSL: float, s: float) -> float:  # noqa: N803
    return cp(s, LSL, USL)


@TOPIC.check(cpk, "cpk-rod")
def nearer_limit(USL: float, LSL: float, s: float, mean: float) -> float:  # noqa: N803
    return cpk(mean, s, LSL, USL)


@TOPIC.check(cp_limits, "cp-ci")
def limits_of_cp(value: float, n: int, confidence: float) -> Interval:
    return cp_limits(value, n, confidence)


@TOPIC.check(cp_limits, "minitab-100", "minitab-40")
@TOPIC.check(cpk_limits, "minitab-100", "minitab-40")
def from_figures(n: int, mean: float, s: float, LSL: float, USL: float, confidence: float) -> list[float]:  # noqa: N803
    pp, ppk = cp(s, LSL, USL), cpk(mean, s, LSL, USL)
    of_pp, of_ppk = cp_limits(pp, n, confidence), cpk_limits(ppk, n, confidence)
    return [pp, of_pp.low, of_pp.high, ppk, of_ppk.low, of_ppk.high]


@TOPIC.check(capability, "minitab-100", "minitab-40")
def from_measurements(n: int, mean: float, s: float, LSL: float, USL: float, confidence: float) -> list[float]:  # noqa: N803
    """Of a row of so many with that mean and spread."""
    scores = [NormalDist().inv_cdf((i + 0.5) / n) for i in range(n)]
    middle, wide = fmean(scores), stdev(scores)
    found = capability([mean + s * (z - middle) / wide for z in scores], LSL, USL, confidence)
    assert found.pp is not None and found.pp_limits is not None
    of_pp, of_ppk = found.pp_limits, found.ppk_limits
    return [found.pp, of_pp.low, of_pp.high, found.ppk, of_ppk.low, of_ppk.high]


@TOPIC.check(gauge_study, "aiag-percent")
def in_per_cent(readings: list[list[list[float]]]) -> list[float]:
    study = gauge_study(readings)
    parts = (study.repeating, study.between_people, study.gauge, study.pieces)
    assert study.told_apart is not None
    return [*(100 * part / study.total for part in parts), study.told_apart]


@TOPIC.check(gauge_study, "aiag-spreads")
def in_spreads(readings: list[list[list[float]]]) -> list[float]:
    study = gauge_study(readings)
    return [study.repeating, study.between_people, study.gauge, study.pieces, study.total]


@TOPIC.check(gauge_study, "gagerr")
def against_tolerance(readings: list[list[list[float]]], tolerance: float) -> list[float]:
    study = gauge_study(readings, tolerance, drop_above=1)
    assert study.of_tolerance is not None
    return [study.repeating, study.between_people, study.gauge, study.pieces, study.of_tolerance]


@TOPIC.check(factors, *(each for each in reference("measurements") if each.startswith("factor-")))
def factor(letter: str, readings: int) -> float:
    return float(getattr(factors(readings), letter))


def limits_of(chart: Charted) -> list[float]:
    return [chart.lower, chart.upper]


@TOPIC.check(mean_and_range, "lots-range-means")
def means_by_range(lots: list[list[float]]) -> list[float]:
    return limits_of(mean_and_range(lots).means)


@TOPIC.check(mean_and_range, "lots-range-ranges")
def ranges(lots: list[list[float]]) -> list[float]:
    return limits_of(mean_and_range(lots).within)


@TOPIC.check(mean_and_deviation, "lots-deviation-means")
def means_by_deviation(lots: list[list[float]]) -> list[float]:
    return limits_of(mean_and_deviation(lots).means)


@TOPIC.check(mean_and_deviation, "lots-deviation-deviations")
def deviations_within(lots: list[list[float]]) -> list[float]:
    return limits_of(mean_and_deviation(lots).within)


@TOPIC.check(individuals, "flow-median-range")
def upper_by_median(x: list[float]) -> float:
    return individuals(x, "median").upper
