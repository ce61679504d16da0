"""ISO 286 limits, chains of sizes, screws and their threads, against published values."""

from __future__ import annotations

from fractions import Fraction

from site_builder.formulas.chain import (
    Size,
    expected_gap,
    gap_deviation,
    matters_most,
    root_sum_square,
    worst_case,
)
from site_builder.formulas.going_together import misfits, put_together
from site_builder.formulas.inch_threads import unified
from site_builder.formulas.interval import Interval
from site_builder.formulas.iso_fits import class_deviations, fit_room, size_limits, size_of_class
from site_builder.formulas.screws import (
    Threads,
    nut_factor,
    preload,
    preload_band,
    preload_for,
    stress_area,
    stress_area_inch,
    tightening_torque,
)
from site_builder.formulas.threads import (
    Thread,
    engagement_needed,
    hole_thread_area,
    metric,
    screw_thread_area,
    shear_strength,
    tear_out_force,
)
from tests.outside.registry import Topic, reference
from tests.outside.units import INCH, PER_CENT, POUND

TOPIC = Topic("fits", "Fits and fastenings")

GRAVITY = 9.80665
MM_INCH = INCH * 1000
POUND_FORCE = POUND * GRAVITY
NEWTON_METRES = {"bolt-half": 1 / (POUND_FORCE * INCH), "bolt-half-ftlb": 1 / (POUND_FORCE * INCH * 12)}

IT = tuple(each for each in reference("fits") if each.startswith("IT"))
LIMITS = tuple(each for each in reference("fits") if each.startswith("lim-"))
FITS = ("fit-25H7g6", "fit-50H7f7", "fit-25H7p6", "fit-25H7h6", "fit-25H7k6")
THREADS = (5, 6, 8, 10, 12, 16)
LARGE_THREADS = (14, 20, 22, 24)
FINE_STRESS = tuple(each for each in reference("fits") if each.startswith("stress-M") and "x" in each)
INCH_STRESS = tuple(each for each in reference("fits") if each.startswith("stress-") and "-M" not in each)
INCH_STRIP = tuple(each for each in reference("fits") if each.startswith("hole-strip-") and "-M" not in each)
INCH_SIZES = tuple(each for each in reference("fits") if each.split("-")[1] in ("2A", "2B"))
FINE_SIZES = tuple(each for each in reference("fits") if each.startswith("M") and "x" in each.partition("-")[0])


@TOPIC.check(class_deviations, *IT)
def width(over_mm: int, to_mm: int, grade: int) -> Fraction:
    """The width of a grade is the upper deviation of the hole H; a step holds its upper end and all above its lower."""
    widths = {class_deviations(size, f"H{grade}")[1] for size in (over_mm + 0.5, to_mm)}
    return widths.pop() if len(widths) == 1 else Fraction(-1)


@TOPIC.check(class_deviations, *LIMITS)
def deviations_of(size_mm: int, tolerance_class: str) -> tuple[Fraction, Fraction]:
    return class_deviations(size_mm, tolerance_class)


@TOPIC.check(size_limits, "size-25H7", "size-12h6")
def limits_of(size_mm: int, tolerance_class: str) -> Interval:
    return size_limits(size_mm, tolerance_class)


@TOPIC.check(fit_room, *FITS)
def clearance(size_mm: int, fit: str) -> list[Fraction]:
    room = fit_room(size_mm, fit)
    return [room.least, room.most]


@TOPIC.check(size_of_class, "chain-25H7m6", "chain-12H7h6")
def chain_of_two(size_mm: int, hole: str, shaft: str) -> Interval:
    return worst_case([size_of_class("hole", size_mm, hole), size_of_class("shaft", size_mm, shaft, -1)])


def chain(tol: list[float], nominals: list[float] | None = None) -> list[Size]:
    return [
        Size(f"size {i}", abs(nominal), -t, t, 1 if nominal >= 0 else -1)
        for i, (nominal, t) in enumerate(zip(nominals or [0.0] * len(tol), tol, strict=True))
    ]


@TOPIC.check(worst_case, "stack-wc")
def worst_gap(tol: list[float], nominals: list[float]) -> list[float]:
    gap = worst_case(chain(tol, nominals))
    return [gap.low, gap.high]


@TOPIC.check(worst_case, "bore-wc", "seven-wc", "four-wc")
def worst_tolerance(tol: list[float]) -> float:
    return worst_case(chain(tol)).high


@TOPIC.check(root_sum_square, "stack-rss-range")
def likely_gap(tol: list[float], nominals: list[float]) -> list[float]:
    gap = root_sum_square(chain(tol, nominals))
    return [gap.low, gap.high]


@TOPIC.check(root_sum_square, "stack-rss-three", "stack-rss-four", "bore-rss", "four-parts", "seven-rss")
def likely_tolerance(tol: list[float]) -> float:
    return root_sum_square(chain(tol)).high


@TOPIC.check(root_sum_square, "ten-parts", "three-parts")
def both_tolerances(tol: list[float]) -> list[float]:
    return [worst_case(chain(tol)).high, root_sum_square(chain(tol)).high]


@TOPIC.check(matters_most, "seven-share", "three-share")
def greatest_share(tol: list[float]) -> float:
    return matters_most(chain(tol))[0].share / PER_CENT


def bearing(bore: list[float], shaft: list[float]) -> list[Size]:
    """A bore and the shaft in it, with mean and standard deviation of each: a tolerance of three deviations."""
    return [
        Size("bore", bore[0], -3 * bore[1], 3 * bore[1]),
        Size("shaft", shaft[0], -3 * shaft[1], 3 * shaft[1], -1),
    ]


@TOPIC.check(expected_gap, "bearing-cm-mean", "bearing-in-mean")
def mean_clearance(bore: list[float], shaft: list[float]) -> float:
    return expected_gap(bearing(bore, shaft))


@TOPIC.check(gap_deviation, "bearing-cm-sd", "bearing-in-sd")
def deviation_of_clearance(bore: list[float], shaft: list[float]) -> float:
    return gap_deviation(bearing(bore, shaft))


@TOPIC.check(misfits, "bearing-cm-share", "bearing-in-share")
def share_that_binds(bore: list[float], shaft: list[float]) -> float:
    return misfits(bearing(bore, shaft), 0.0).under


@TOPIC.check(misfits, "three-sigma")
def share_beyond() -> float:
    sizes = chain([0.1, 0.2])
    likely = root_sum_square(sizes)
    return misfits(sizes, likely.low, likely.high).all


@TOPIC.check(misfits, "rod-cpk")
def share_too_long(mean: float, s: float, most: float) -> float:
    return misfits([Size("rod", mean, -3 * s, 3 * s)], most=most).over


@TOPIC.check(put_together, "bearing-cm-trial", "bearing-in-trial")
def share_that_binds_in_a_trial(bore: list[float], shaft: list[float]) -> float:
    return put_together(bearing(bore, shaft), 0.0, runs=50_000).misfits.under


@TOPIC.check(tightening_torque, "bolt-half")
def torque_lb_in(K: float, d_in: float, F_lb: float) -> float:  # noqa: N803
    return tightening_torque(F_lb * POUND_FORCE, d_in * MM_INCH, K) * NEWTON_METRES["bolt-half"]


@TOPIC.check(tightening_torque, "bolt-half-ftlb")
def torque_lb_ft(K: float, d_in: float, F_lb: float) -> float:  # noqa: N803
    return tightening_torque(F_lb * POUND_FORCE, d_in * MM_INCH, K) * NEWTON_METRES["bolt-half-ftlb"]


@TOPIC.check(tightening_torque, "bolt-half-nm")
def torque_nm(K: float, d_in: float, F_lb: float) -> float:  # noqa: N803
    return tightening_torque(F_lb * POUND_FORCE, d_in * MM_INCH, K)


@TOPIC.check(tightening_torque, "bolt-M24")
def torque_metric(K: float, d_mm: float, F_N: float) -> float:  # noqa: N803
    return tightening_torque(F_N, d_mm, K)


@TOPIC.check(preload, "pull-half")
def pull_lb(K: float, d_in: float, T_lb_in: float) -> float:  # noqa: N803
    return preload(T_lb_in * POUND_FORCE * INCH, d_in * MM_INCH, K) / POUND_FORCE


@TOPIC.check(preload, "pull-M24")
def pull_metric(K: float, d_mm: float, T_Nm: float) -> float:  # noqa: N803
    return preload(T_Nm, d_mm, K)


@TOPIC.check(preload_band, "pull-band-half")
def pull_when_dry(d_in: float, T_lb_in: float) -> list[float]:  # noqa: N803
    band = preload_band(T_lb_in * POUND_FORCE * INCH, d_in * MM_INCH)
    return [band.low / POUND_FORCE, band.high / POUND_FORCE]


@TOPIC.check(preload_band, "pull-band-M24")
def pull_when_dry_metric(d_mm: float, T_Nm: float) -> Interval:  # noqa: N803
    return preload_band(T_Nm, d_mm)


@TOPIC.check(preload_for, "proof-M24")
def pull_of_proof(area_mm2: float, proof_MPa: float, share: float) -> float:  # noqa: N803
    return preload_for(area_mm2, proof_MPa, share)


@TOPIC.check(preload_for, "proof-M12")
def pull_of_proof_kn(area_mm2: float, proof_MPa: float, share: float) -> float:  # noqa: N803
    return preload_for(area_mm2, proof_MPa, share) / 1000


@TOPIC.check(stress_area, "As-M12", *(f"stress-M{d}" for d in THREADS), *FINE_STRESS)
def pulled_area(d_mm: float, p_mm: float) -> float:
    return stress_area(d_mm, p_mm)


@TOPIC.check(stress_area_inch, *INCH_STRESS)
def pulled_area_inch(d_in: float, per_inch: int) -> float:
    return stress_area_inch(d_in * MM_INCH, MM_INCH / per_inch) / MM_INCH**2


@TOPIC.check(screw_thread_area, *(f"screw-strip-M{d}" for d in THREADS + LARGE_THREADS))
def screw_strip(d_mm: int) -> float:
    return screw_thread_area(metric(d_mm), d_mm)


@TOPIC.check(hole_thread_area, *(f"hole-strip-M{d}" for d in THREADS + LARGE_THREADS))
def hole_strip(d_mm: int) -> float:
    return hole_thread_area(metric(d_mm), d_mm)


@TOPIC.check(hole_thread_area, *INCH_STRIP)
def hole_strip_inch(size: str, per_inch: int) -> float:
    return hole_thread_area(unified(size, per_inch), MM_INCH) / MM_INCH**2


@TOPIC.check(unified, *INCH_SIZES)
def size_of_inch_thread(size: str, per_inch: int, which: str) -> float:
    return float(getattr(unified(size, per_inch), which)) / MM_INCH


@TOPIC.check(metric, "M10-hole", "M5-screw", "M2.5-screw", "M3.5-screw-pitch", *FINE_SIZES)
def size_of_thread(d_mm: float, which: str, p_mm: float | None = None) -> float:
    return float(getattr(metric(d_mm, p_mm), which))


def thread(d_mm: float, p_mm: float, screw_mm: float, hole_pitch_mm: float) -> Thread:
    """A thread with the sizes that count for the hole; the others at basic size."""
    return Thread(d_mm, p_mm, screw_mm, d_mm - 0.6495 * p_mm, hole_pitch_mm, d_mm - 1.0825 * p_mm)


@TOPIC.check(engagement_needed, "engage-M10-al", "engage-M10-basic")
def engaged(load_N: float, shear_MPa: float, **sizes: float) -> float:  # noqa: N803
    return engagement_needed(thread(**sizes), load_N, shear_MPa)


@TOPIC.check(engagement_needed, "engage-M10-range")
def engaged_at_worst(d_mm: int, load_N: float, shear_MPa: float) -> float:  # noqa: N803
    return engagement_needed(metric(d_mm), load_N, shear_MPa)


@TOPIC.check(tear_out_force, "tear-M10-al")
def tears_out(engaged_mm: float, shear_MPa: float, **sizes: float) -> float:  # noqa: N803
    return tear_out_force(thread(**sizes), engaged_mm, shear_MPa)


@TOPIC.check(tear_out_force, "tear-M6-zinc")
def tears_out_of_zinc(d_mm: int, engaged_mm: float, shear_MPa: float) -> float:  # noqa: N803
    return tear_out_force(metric(d_mm), engaged_mm, shear_MPa)


@TOPIC.check(shear_strength, "half-tensile-3", "half-tensile-5")
def assumed_shear(tensile_MPa: float) -> float:  # noqa: N803
    return shear_strength(tensile_MPa)


@TOPIC.check(nut_factor, "nut-factor-dry", "nut-factor-oiled", "nut-factor-anti-seize")
def band_of_nut_factor(threads: Threads) -> Interval:
    return nut_factor(threads)
