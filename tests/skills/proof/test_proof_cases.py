"""Proofs as a shop meets them, and figures that cannot be."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from site_builder.formulas.errors import Impossible
from site_builder.skills.proof.agreement import agreed, cohen_kappa, fleiss_kappa, strength, tally
from site_builder.skills.proof.capability import capability, cp, cp_limits, cpk
from site_builder.skills.proof.chances import beta_below, normal_quantile, student_quantile
from site_builder.skills.proof.comparison import compare_shares, fisher_exact
from site_builder.skills.proof.control_limits import individuals
from site_builder.skills.proof.curve_fit import Lot, fit_curve
from site_builder.skills.proof.gauge_study import gauge_study
from site_builder.skills.proof.leaning import leaning
from site_builder.skills.proof.learning_curve import lot_midpoint, piece_time, pieces_to
from site_builder.skills.proof.pieces import clopper_pearson, wilson
from site_builder.skills.proof.sequential import Plan, judge
from site_builder.skills.proof.standard_time import (
    Element,
    allowance_factor,
    normal_time,
    time_study,
    timings_needed,
)
from site_builder.skills.proof.steadiness import running_sum, steadiness
from site_builder.skills.proof.straight_line import straight_line
from site_builder.skills.proof.success_run import pieces_due, pieces_needed
from site_builder.skills.proof.values_compared import compare_values, mann_whitney, welch


def test_no_formula_gives_away_a_piece_unnoticed() -> None:
    """The two run lengths in print for 95 % at 95 %: 59 classical, 58 with a uniform prior."""
    assert pieces_needed(0.95, 0.95) == 59
    assert pieces_needed(0.95, 0.95, formula="uniform prior") == 58


def test_a_fault_costs_an_apprentice_more_than_one_piece() -> None:
    """29 good pieces prove 90 % at 95 %; with one bad among them 46 are needed (binomial demonstration tables)."""
    assert pieces_due(0.90, 0.95, made=29, faults=0).proved
    assert pieces_due(0.90, 0.95, made=29, faults=1).more == 17


def test_the_test_may_go_on_for_ever_in_between() -> None:
    plan = Plan(ready=0.05, unready=0.20)
    assert judge([], plan).verdict == "go on"
    every_tenth = [n % 10 != 0 for n in range(1, 31)]  # a tenth is bad: nearly the slope, neither good nor bad
    assert judge(every_tenth, plan).verdict == "go on"


def test_a_hand_that_is_lost_again_is_told() -> None:
    hand = [True, False, False] * 5 + [True] * 40 + [False, True] * 10
    found = steadiness(hand, ready=0.03, unready=0.30)
    assert [turn.to for turn in found.turns] == ["steady", "unsteady"]
    assert found.turns[0].since == 16
    assert found.turns[1].since == 56
    assert found.since is None


def test_pieces_that_are_all_alike_tell_nothing_of_agreement() -> None:
    """Expected agreement is complete, kappa nothing over nothing (as statsmodels' degenerate case)."""
    assert cohen_kappa([[7, 0], [0, 0]]) is None
    assert fleiss_kappa([[7, 0], [7, 0]]) is None


def test_the_pieces_two_hands_disagree_on() -> None:
    grades = {"1": ("good", "good"), "2": ("bad", "good"), "3": ("good", "bad"), "4": ("bad", "good")}
    found = leaning(grades, ["bad", "good"])
    assert (found.passed, found.thrown, found.way) == (("2", "4"), ("3",), "lets bad ones pass")
    assert leaning({"1": ("good", "good")}, ["bad", "good"]).way == "none"
    ordered = leaning({"1": ("fine", "fair"), "2": ("poor", "fair")}, ["poor", "fair", "fine"])
    assert (ordered.passed, ordered.thrown, ordered.way) == (("2",), ("1",), "both ways")


def test_a_hand_that_does_not_learn_never_reaches_the_standard() -> None:
    slower = fit_curve([Lot(1, 10), Lot(1, 12), Lot(1, 13), Lot(1, 14)])
    assert not slower.learns
    assert slower.reaches(5).piece is None
    assert pieces_to(10, 1.0, 5) is None


def test_few_lots_that_scatter_leave_the_end_open() -> None:
    """Three lots nearly alike: the standard may be reached some day, and nobody can say by when."""
    reach = fit_curve([Lot(10, 55), Lot(10, 50), Lot(10, 52)]).reaches(4.6)
    assert reach.piece is not None
    assert reach.latest is None


def test_a_lot_of_no_learning_has_its_middle_in_the_middle() -> None:
    assert lot_midpoint(11, 20, 1.0) == 15.5


def test_only_the_element_that_needs_most_timings_decides() -> None:
    loose, tight = Element([1.0, 2.0, 1.5]), Element([4.0, 4.01, 3.99])
    study = time_study([tight, loose], 0.10, "job time")
    assert study.enough == timings_needed([1.0, 2.0, 1.5])
    assert study.enough.more > 0
    assert timings_needed([4.0, 4.01, 3.99]).more == 0


def test_what_speaks_against_steady_work_is_named_by_place() -> None:
    spike = individuals([10.0, 10.1, 9.9, 10.0, 10.1, 14.0, 10.0, 9.9, 10.1, 10.0, 9.9, 10.1])
    assert spike.outside == (6,)
    assert spike.jumps == (6, 7)
    drift = individuals([1.0, 1.1, 0.9, 1.0, 1.1, 0.9, 1.0, 1.1, 2.0, 2.1, 1.9, 2.0, 2.1, 1.9, 2.0, 2.1, 2.0])
    assert drift.drifted == (8, 16, 17)


def test_a_tolerance_with_one_end_has_no_spread_index() -> None:
    found = capability([9.8, 10.1, 10.0, 10.2, 9.9], None, 11)
    assert found.cp is None
    assert found.pp is None
    assert found.pp_limits is None
    assert found.outside == 0
    assert capability([9.8, 10.1, 10.0, 10.2, 9.9], 9.9, None).outside == 1


def test_one_person_alone_can_study_a_gauge() -> None:
    """By hand: cell means 1.1 and 5.1, each pair 0.2 apart: repeating 0.1414, pieces √(16/2 - 0.02/2) = 2.8267."""
    study = gauge_study([[[1.0, 1.2]], [[5.0, 5.2]]], tolerance=10)
    assert study.repeating == pytest.approx(0.141421, abs=1e-6)
    assert study.between_people == 0
    assert study.pieces == pytest.approx(2.826659, abs=1e-6)
    assert study.verdict == "good"


def test_a_gauge_that_reads_the_same_again_and_again_shows_no_spread() -> None:
    study = gauge_study([[[1.0, 1.0], [1.0, 1.0]], [[2.0, 2.0], [2.0, 2.0]]])
    assert study.told_apart is None
    assert study.verdict == "good"


def test_people_who_read_certain_pieces_otherwise_are_found() -> None:
    readings = [[[1.0, 1.01], [2.0, 2.01]], [[2.0, 2.01], [1.0, 1.01]], [[1.5, 1.51], [1.5, 1.51]]]
    assert gauge_study(readings).people_differ_by_piece
    assert not gauge_study(readings, drop_above=0).people_differ_by_piece


def test_none_since_after_many_before() -> None:
    """41 of 380 before, none of 120 since; by hand (380/500)^41 is about 1.3 in 100 000, dealt without putting back."""
    found = compare_shares(41, 380, 0, 120)
    assert found.luck.fewer == pytest.approx(8e-6, abs=2e-6)
    assert found.limits.high < 0


def test_few_values_go_by_rank_and_many_by_mean() -> None:
    few = [float(v) for v in range(14)]
    assert compare_values(few, few).test == "Mann-Whitney"
    assert compare_values([*few, 15.0], [*few, 16.0]).test == "Welch"


def test_two_against_two_can_never_be_sure() -> None:
    """Of the six orders of 2 and 2, two are as extreme: a third of the time by luck."""
    found = mann_whitney([1.0, 2.0], [3.0, 4.0])
    assert found.luck == pytest.approx(1 / 3)
    assert (found.limits.low, found.limits.high) == (1.0, 3.0)


CASES: list[tuple[str, Callable[[], object]]] = [
    ("share", lambda: normal_quantile(1)),
    ("first shape", lambda: beta_below(0.5, 0, 1)),
    ("degrees of freedom", lambda: student_quantile(0.9, 0)),
    ("pieces made", lambda: clopper_pearson(0, 0)),
    ("good pieces", lambda: wilson(5, 4)),
    ("good pieces", lambda: wilson(-1, 4)),
    ("confidence", lambda: wilson(3, 4, 1.0)),
    ("share to be proved", lambda: pieces_needed(1.0, 0.9)),
    ("confidence", lambda: pieces_needed(0.9, 0.0)),
    ("faults", lambda: pieces_due(0.9, 0.9, made=3, faults=4)),
    ("faults of an unready hand", lambda: Plan(0.2, 0.1)),
    ("both risks together", lambda: Plan(0.1, 0.2, 0.5, 0.5)),
    ("pieces between false calls", lambda: steadiness([True], 0.1, 0.2, 1)),
    ("values", lambda: running_sum([], 0, 0, "up")),
    ("slack", lambda: running_sum([1.0], 0, -1, "up")),
    ("grade", lambda: tally(["good"], ["fine"], ["bad", "good"])),
    ("grades of the second grader", lambda: tally(["good"], [], ["bad", "good"])),
    ("table of grades", lambda: cohen_kappa([[1, 2]])),
    ("graded pieces", lambda: agreed([[0, 0], [0, 0]])),
    ("weights", lambda: cohen_kappa([[1, 2], [3, 4]], [[0, 0], [0, 0]])),
    ("weights", lambda: cohen_kappa([[1, 2], [3, 4]], [[1, 1], [1, 0]])),
    ("graders of a piece", lambda: fleiss_kappa([[2, 1], [1, 1]])),
    ("counts", lambda: fleiss_kappa([])),
    ("kappa", lambda: strength(1.5)),
    ("graded pieces", lambda: leaning({}, ["bad", "good"])),
    ("grade", lambda: leaning({"1": ("good", "so so")}, ["bad", "good"])),
    ("time of the first piece", lambda: piece_time(0, 0.8, 1)),
    ("learning rate", lambda: piece_time(1, 0, 1)),
    ("piece", lambda: piece_time(1, 0.8, 0)),
    ("learning rate", lambda: pieces_to(1, 0.5, 0.1, "cumulative average")),
    ("last piece of the lot", lambda: lot_midpoint(5, 4, 0.8)),
    ("lots", lambda: fit_curve([Lot(1, 1), Lot(1, 1)])),
    ("time of a lot", lambda: fit_curve([Lot(1, 1), Lot(1, 1), Lot(1, 0)])),
    ("places", lambda: straight_line([1, 1, 1], [1, 2, 3])),
    ("heights", lambda: straight_line([1, 2, 3], [1, 2, 3, 4])),
    ("pace", lambda: normal_time(1, 0)),
    ("allowance", lambda: allowance_factor(1.0, "work day")),
    ("timings", lambda: timings_needed([1.0])),
    ("timing", lambda: timings_needed([1.0, 0.0])),
    ("elements", lambda: time_study([], 0.1, "job time")),
    ("measurements", lambda: individuals([1.0])),
    ("measurements", lambda: individuals([1.0, float("nan")])),
    ("spread", lambda: capability([1.0, 1.0, 1.0], 0, 2)),
    ("upper limit", lambda: cp(1, 5, 4)),
    ("limits", lambda: cpk(1, 1, None, None)),
    ("measurements", lambda: cp_limits(1, 1)),
    ("pieces", lambda: gauge_study([[[1.0, 2.0]]])),
    ("readings", lambda: gauge_study([[[1.0, 2.0]], [[1.0, 2.0, 3.0]]])),
    ("readings", lambda: gauge_study([[[1.0, 1.0]], [[1.0, 1.0]]])),
    ("readings of a piece by a person", lambda: gauge_study([[[1.0]], [[1.0]]])),
    ("tolerance", lambda: gauge_study([[[1.0, 2.0]], [[1.0, 2.0]]], tolerance=0)),
    ("failures since", lambda: fisher_exact(1, 2, 3, 2)),
    ("pieces made", lambda: compare_shares(1, 2, 0, 0)),
    ("values before", lambda: welch([1.0], [1.0, 2.0])),
    ("values", lambda: welch([1.0, 1.0], [2.0, 2.0])),
    ("values", lambda: mann_whitney([1.0], [1.0])),
]


@pytest.mark.parametrize(("argument", "ask"), CASES, ids=[f"{i}-{a}" for i, (a, _) in enumerate(CASES)])
def test_what_cannot_be_is_refused_by_name(argument: str, ask: Callable[[], object]) -> None:
    with pytest.raises(Impossible) as refused:
        ask()
    assert refused.value.argument == argument
    assert refused.value.why
