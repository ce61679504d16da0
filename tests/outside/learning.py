"""Learning curves in both forms, time study and standard time."""

from __future__ import annotations

from site_builder.skills.proof.curve_fit import Fitted, Lot, fit_curve
from site_builder.skills.proof.learning_curve import (
    average_time,
    lot_midpoint,
    piece_time,
    pieces_to,
    rate_from,
    slope,
    total_time,
)
from site_builder.skills.proof.standard_time import (
    Element,
    allowance_factor,
    normal_time,
    standard_time,
    time_study,
    timings_needed,
)
from site_builder.skills.proof.until_able import time_until
from tests.outside.registry import Topic, reference

TOPIC = Topic("learning", "Time and learning")


def named(*starts: str) -> tuple[str, ...]:
    return tuple(each for each in reference("learning") if each.startswith(starts))


TOPIC.check(slope, *named("slope-"))(slope)


@TOPIC.check(piece_time, *named("unit-", "printed-"))
def unit_factor(rate: float, n: int) -> float:
    return piece_time(1, rate, n)


@TOPIC.check(total_time, *named("cum-"))
def total_factor(rate: float, n: int) -> float:
    return total_time(1, rate, n)


@TOPIC.check(piece_time, "wright-2nd-unit")
def second_piece(rate: float) -> float:
    return piece_time(1, rate, 2, "cumulative average")


@TOPIC.check(average_time, "wright-avg4")
def average_of_four(rate: float) -> float:
    return average_time(1, rate, 4, "cumulative average")


@TOPIC.check(piece_time, "lc-unit-125")
def unit_125(first: float, rate: float, n: int) -> float:
    return piece_time(first, rate, n)


@TOPIC.check(piece_time, "lc-ca-125")
def wright_125(first: float, rate: float, n: int) -> float:
    return piece_time(first, rate, n, "cumulative average")


@TOPIC.check(total_time, "lc-total-125")
def total_125(first: float, rate: float, n: int) -> float:
    return total_time(first, rate, n)


@TOPIC.check(total_time, "lc-block-125")
def wright_total_125(first: float, rate: float, n: int) -> float:
    return total_time(first, rate, n, "cumulative average")


@TOPIC.check(average_time, "lc-block-125")
def wright_average_125(first: float, rate: float, n: int) -> float:
    return average_time(first, rate, n, "cumulative average") * n


@TOPIC.check(lot_midpoint, "lc-mid-201-500")
def midpoint(first_piece: int, last_piece: int, rate: float) -> float:
    return lot_midpoint(first_piece, last_piece, rate)


@TOPIC.check(lot_midpoint, "lc-mid-hours")
def hours_at_midpoint(first_piece: int, last_piece: int, rate: float, hours: float) -> float:
    return float(hours * (lot_midpoint(first_piece, last_piece, rate) / first_piece) ** slope(rate))


@TOPIC.check(pieces_to, "reps-to-standard", "to-512", "to-490")
def reached_at(T1: float, rate: float, target: float) -> int | None:  # noqa: N803
    return pieces_to(T1, rate, target)


@TOPIC.check(fit_curve, "fit-80", "fit-90")
def rate_of_column(times: list[float]) -> float:
    return fit_curve([Lot(1, each) for each in times]).rate


@TOPIC.check(fit_curve, "fit-wright")
def rate_of_averages(lots: list[tuple[int, float]]) -> float:
    return fit_curve([Lot(pieces, took) for pieces, took in lots], "cumulative average").rate


def on_the_curve(first: float, rate: float) -> Fitted:
    """A curve drawn through the first eight pieces of a hand that learns at this rate."""
    return fit_curve([Lot(1, piece_time(first, rate, piece)) for piece in range(1, 9)])


@TOPIC.check(time_until, *named("cum-"))
def time_of_the_first_pieces(rate: float, n: int) -> float:
    found = time_until(on_the_curve(1, rate), None, n)
    return found.took if found is not None else 0


@TOPIC.check(time_until, "reps-to-standard", "to-512", "to-490")
def pieces_until_quick(T1: float, rate: float, target: float) -> int | None:  # noqa: N803
    found = time_until(on_the_curve(T1, rate), target, None)
    return found.pieces if found is not None else None


@TOPIC.check(normal_time, "ilo-basic-100", "ilo-basic-80", "ilo-basic-115")
def basic(observed_min: float, rating: float) -> float:
    return normal_time(observed_min, rating / 100)


@TOPIC.check(standard_time, "element-1", "element-3", "element-4")
def element(avg_min: float, rating: float, allowance: float) -> list[float]:
    """The source says job time and divides, which takes the allowance out of the day."""
    normal = normal_time(avg_min, rating)
    return [normal, standard_time(normal, allowance, "work day")]


@TOPIC.check(standard_time, "ilo-standard")
def relaxed(basic_min: float, relaxation: float) -> float:
    return standard_time(basic_min, relaxation, "job time")


@TOPIC.check(allowance_factor, "allowance-two-conventions")
def both_conventions(allowance: float) -> list[float]:
    return [allowance_factor(allowance, "job time"), allowance_factor(allowance, "work day")]


@TOPIC.check(allowance_factor, "ilo-standard")
def relaxation_added(basic_min: float, relaxation: float) -> float:
    return basic_min * allowance_factor(relaxation, "job time")


@TOPIC.check(timings_needed, "ilo-n")
def labour_office(readings: list[float]) -> float:
    return timings_needed(readings, 0.05, 0.9545, spread="Labour Office").exactly


@TOPIC.check(timings_needed, "n-abs-error")
def within_a_hundredth(readings: list[float], error: float) -> int:
    return timings_needed(readings, error, absolute=True).needed


@TOPIC.check(time_study, "elements-together")
def whole_job(elements: list[tuple[float, float]], allowance: float) -> float:
    return time_study([Element([avg, avg], pace) for avg, pace in elements], allowance, "work day").standard


@TOPIC.check(time_study, "ilo-together")
def whole_basic(elements: list[tuple[float, float]], allowance: float) -> float:
    return time_study([Element([avg, avg], pace) for avg, pace in elements], allowance, "job time").normal


@TOPIC.check(rate_from, "rate-80-10", "rate-90-10", "rate-80-2-to-4")
def rate_of_two(piece: int, took: float, later: int, later_took: float) -> float:
    return rate_from(piece, took, later, later_took)
