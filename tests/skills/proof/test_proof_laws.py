"""What must hold of every proof, whatever the figures."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import stats

from site_builder.skills.proof.agreement import agreed, cohen_kappa, tally
from site_builder.skills.proof.capability import capability
from site_builder.skills.proof.comparison import compare_shares, difference_limits
from site_builder.skills.proof.control_limits import individuals
from site_builder.skills.proof.curve_fit import Lot, fit_curve
from site_builder.skills.proof.gauge_study import gauge_study
from site_builder.skills.proof.leaning import leaning
from site_builder.skills.proof.learning_curve import (
    Form,
    average_time,
    lot_midpoint,
    piece_time,
    pieces_to,
    total_time,
)
from site_builder.skills.proof.pieces import clopper_pearson, clopper_pearson_at_least, wilson
from site_builder.skills.proof.sequential import Plan, judge
from site_builder.skills.proof.standard_time import standard_time
from site_builder.skills.proof.steadiness import running_sum, steadiness
from site_builder.skills.proof.success_run import pieces_due, pieces_needed, share_shown
from site_builder.skills.proof.values_compared import mann_whitney, welch
from site_builder.skills.proof.wording import tell_curve

near = pytest.approx
sure = st.floats(0.5, 0.99)
forms: st.SearchStrategy[Form] = st.sampled_from(["unit", "cumulative average"])
rates = st.floats(0.55, 0.99)
counts = st.integers(1, 400).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))
values = st.lists(st.integers(-500, 500).map(lambda v: v / 10), min_size=3, max_size=25)
hands = st.lists(st.booleans(), min_size=1, max_size=120)


@given(counts, sure)
def test_limits_hold_what_was_seen_and_mirror(count: tuple[int, int], confidence: float) -> None:
    good, made = count
    for limits in (clopper_pearson, wilson):
        seen, mirrored = limits(good, made, confidence), limits(made - good, made, confidence)
        assert 0 <= seen.low <= good / made + 1e-12
        assert good / made - 1e-12 <= seen.high <= 1
        assert (seen.low, seen.high) == near((1 - mirrored.high, 1 - mirrored.low), abs=1e-9)


@given(counts, sure)
def test_one_more_good_piece_never_lowers_the_proof(count: tuple[int, int], confidence: float) -> None:
    good, made = count
    before = clopper_pearson_at_least(good, made, confidence)
    assert clopper_pearson_at_least(good + 1, made + 1, confidence) > before
    assert clopper_pearson_at_least(good, made + 1, confidence) <= before


@pytest.mark.parametrize("made", [3, 10, 25])
@pytest.mark.parametrize("truth", [0.02, 0.3, 0.5, 0.77, 0.95])
def test_exact_limits_miss_the_truth_no_more_often_than_said(made: int, truth: float) -> None:
    hit = sum(stats.binom.pmf(g, made, truth) for g in range(made + 1) if truth in clopper_pearson(g, made, 0.9))
    assert hit >= 0.9


@given(st.floats(0.5, 0.98), st.floats(0.5, 0.98), st.integers(0, 4))
@settings(max_examples=40)
def test_pieces_needed_show_the_share_and_one_fewer_do_not(share: float, confidence: float, faults: int) -> None:
    for formula in ("classical", "uniform prior"):
        needed = pieces_needed(share, confidence, faults, formula)
        if needed:
            assert share_shown(needed, confidence, faults, formula) >= share - 1e-9
        if needed - 1 >= max(faults, 1):
            assert share_shown(needed - 1, confidence, faults, formula) < share + 1e-9
    assert pieces_needed(share, confidence, faults + 1) > pieces_needed(share, confidence, faults)


@given(st.floats(0.5, 0.98), sure, st.integers(0, 60), st.integers(0, 3))
@settings(max_examples=50)
def test_who_makes_the_pieces_that_are_due_has_proved_it(share: float, sureness: float, made: int, faults: int) -> None:
    assume(faults <= made)
    due = pieces_due(share, sureness, made, faults)
    assert pieces_due(share, sureness, made + due.more, faults).proved
    assert due.proved or not pieces_due(share, sureness, made + due.more - 1, faults).proved


@given(hands, hands)
def test_a_fallen_verdict_is_not_taken_back(first: list[bool], then: list[bool]) -> None:
    plan = Plan(0.05, 0.25)
    early = judge(first, plan)
    assume(early.verdict != "go on")
    assert judge([*first, *then], plan) == early


@given(values, st.floats(-20, 20), st.floats(0, 5))
def test_a_running_sum_never_falls_under_nothing(row: list[float], target: float, slack: float) -> None:
    for side in ("up", "down"):
        found = running_sum(row, target, slack, side)
        assert min(found.sums) >= 0
        assert all((run > 0) == (total > 0) for run, total in zip(found.runs, found.sums, strict=True))
        assert all(b in (0, a + 1) for a, b in pairwise((0, *found.runs)))


@given(st.integers(0, 40))
def test_the_moment_is_the_first_piece_of_the_good_run(bad: int) -> None:
    """So many bad ones, then only good ones: steady since the first good one, however long the bad time was."""
    found = steadiness([False] * bad + [True] * 60, ready=0.05, unready=0.30)
    assert found.since == bad + 1


@given(hands, hands)
def test_later_pieces_do_not_move_turns_that_were_called(first: list[bool], then: list[bool]) -> None:
    early, late = steadiness(first, 0.05, 0.30, 20), steadiness([*first, *then], 0.05, 0.30, 20)
    assert late.turns[: len(early.turns)] == early.turns
    assert late.sums[: len(first)] == early.sums


@given(hands)
def test_turns_alternate_and_follow_each_other(good: list[bool]) -> None:
    found = steadiness(good, 0.05, 0.40, 10)
    assert len(found.sums) == len(good)
    assert [t.to for t in found.turns] == [("steady", "unsteady")[i % 2] for i in range(len(found.turns))]
    assert all(t.since <= t.seen for t in found.turns)
    assert all(a.seen < b.since for a, b in pairwise(found.turns))


grade_lists = st.lists(st.tuples(st.sampled_from("abc"), st.sampled_from("abc")), min_size=2, max_size=40)


@given(grade_lists)
def test_kappa_does_not_care_who_is_named_first(pairs: list[tuple[str, str]]) -> None:
    table = tally([a for a, _ in pairs], [b for _, b in pairs], "abc")
    turned = [list(column) for column in zip(*table, strict=True)]
    for weights in ("none", "linear", "quadratic"):
        one, other = cohen_kappa(table, weights), cohen_kappa(turned, weights)
        assert (one is None) == (other is None)
        if one and other:
            assert (one.value, one.error) == near((other.value, other.error), abs=1e-9)
            assert -1 <= one.limits.low <= one.value + 1e-12 <= one.limits.high + 2e-12 <= 1 + 3e-12


@given(st.lists(st.sampled_from("abc"), min_size=2, max_size=30))
def test_who_always_agrees_has_kappa_one(grades: list[str]) -> None:
    table = tally(grades, grades, "abc")
    assert agreed(table).share == 1
    found = cohen_kappa(table)
    assert found is None if len(set(grades)) == 1 else found is not None and found.value == near(1)


@given(st.lists(st.tuples(st.booleans(), st.booleans()), min_size=1, max_size=30))
def test_with_two_grades_weights_change_nothing(pairs: list[tuple[bool, bool]]) -> None:
    table = tally([a for a, _ in pairs], [b for _, b in pairs], [False, True])
    plain = cohen_kappa(table)
    for weights in ("linear", "quadratic"):
        found = cohen_kappa(table, weights)
        assert (found is None) == (plain is None)
        assert found is None or plain is None or found.value == near(plain.value)


@given(
    st.dictionaries(st.text("0123456789", min_size=1, max_size=3), st.tuples(st.booleans(), st.booleans()), min_size=1)
)
def test_changing_places_turns_the_errors_round(grades: dict[str, tuple[bool, bool]]) -> None:
    one = leaning(grades, [False, True])
    other = leaning({piece: (b, a) for piece, (a, b) in grades.items()}, [False, True])
    assert (one.passed, one.thrown, one.luck) == (other.thrown, other.passed, other.luck)
    assert len(one.passed) + len(one.thrown) == sum(a != b for a, b in grades.values())


@given(st.floats(0.1, 500), rates, st.integers(1, 150), forms)
def test_pieces_add_up_to_the_total(first: float, rate: float, pieces: int, form: Form) -> None:
    total = math.fsum(piece_time(first, rate, n, form) for n in range(1, pieces + 1))
    assert total_time(first, rate, pieces, form) == near(total)
    assert average_time(first, rate, pieces, form) * pieces == near(total)


@given(st.floats(0.1, 500), rates, st.integers(1, 500), forms)
def test_doubling_takes_the_rate(first: float, rate: float, n: int, form: Form) -> None:
    told = piece_time if form == "unit" else average_time
    assert told(first, rate, 2 * n, form) == near(rate * told(first, rate, n, form))


@given(st.integers(1, 300), st.integers(0, 200), rates)
def test_the_middle_of_a_lot_takes_its_average(first: int, further: int, rate: float) -> None:
    middle = lot_midpoint(first, first + further, rate)
    assert first - 1e-6 <= middle <= first + further / 2 + 1e-6
    lot = sum(piece_time(1, rate, n) for n in range(first, first + further + 1))
    assert middle ** math.log2(rate) * (further + 1) == near(lot, rel=1e-6)


@given(st.floats(1, 100), st.floats(0.6, 0.95), st.floats(0.2, 1.2), forms)
def test_the_target_is_reached_by_that_piece_and_not_before(first: float, rate: float, part: float, form: Form) -> None:
    piece = pieces_to(first, rate, first * part, form)
    if piece is not None:
        assert piece_time(first, rate, piece, form) <= first * part * (1 + 1e-9)
        assert piece == 1 or piece_time(first, rate, piece - 1, form) > first * part


lot_sizes = st.lists(st.integers(1, 20), min_size=3, max_size=12)


@given(st.floats(1, 200), rates, lot_sizes, forms)
def test_a_curve_without_noise_is_found_again(first: float, rate: float, sizes: list[int], form: Form) -> None:
    lots, made = [], 0
    for size in sizes:
        before = total_time(first, rate, made, form) if made else 0.0
        made += size
        lots.append(Lot(size, total_time(first, rate, made, form) - before))
    fitted = fit_curve(lots, form)
    assert (fitted.first, fitted.rate) == near((first, rate), rel=1e-5)
    assert fitted.made == made


@given(st.lists(st.tuples(st.integers(1, 9), st.floats(1, 50)), min_size=3, max_size=12), st.floats(0.01, 100), forms)
def test_the_unit_of_time_does_not_matter(lots: list[tuple[int, float]], scale: float, form: Form) -> None:
    one = fit_curve([Lot(n, t) for n, t in lots], form)
    other = fit_curve([Lot(n, t * scale) for n, t in lots], form)
    assert other.rate == near(one.rate)
    assert other.first == near(one.first * scale, rel=1e-6)


@given(
    st.lists(st.tuples(st.integers(1, 3000), st.floats(1e-6, 1e6)), min_size=3, max_size=5), st.floats(0.01, 1e4), forms
)
@settings(max_examples=50, deadline=None)
def test_figures_gone_wild_still_give_an_answer(lots: list[tuple[int, float]], target: float, form: Form) -> None:
    fitted = fit_curve([Lot(n, t) for n, t in lots], form)
    assert 0 <= fitted.rate_limits.low <= fitted.rate <= fitted.rate_limits.high
    assert not math.isnan(fitted.mean_time(fitted.made)[0])
    told = tell_curve(fitted, target, "min")
    assert told.endswith(".")
    assert "inf" not in told


@given(
    st.lists(st.tuples(st.integers(1, 9), st.floats(1, 50)), min_size=3, max_size=12),
    st.floats(0.5, 60),
    sure,
)
def test_what_is_likely_lies_between_earliest_and_latest(
    lots: list[tuple[int, float]], target: float, confidence: float
) -> None:
    reach = fit_curve([Lot(n, t) for n, t in lots], confidence=confidence).reaches(target)
    if reach.piece is None:
        return
    assert reach.earliest is None or reach.earliest <= reach.piece * (1 + 1e-6)
    assert reach.latest is None or reach.latest >= reach.piece * (1 - 1e-6)


@given(st.floats(0.01, 100), st.floats(0, 0.9))
def test_an_allowance_out_of_the_day_is_the_dearer(normal: float, allowance: float) -> None:
    dear, cheap = standard_time(normal, allowance, "work day"), standard_time(normal, allowance, "job time")
    assert dear >= cheap * (1 - 1e-12) >= normal * (1 - 2e-12)


@given(values, st.floats(-50, 50), st.floats(0.1, 20))
def test_limits_move_with_the_scale(row: list[float], shift: float, scale: float) -> None:
    one, other = individuals(row), individuals([v * scale + shift for v in row])
    assert other.mean == near(one.mean * scale + shift, abs=1e-6)
    assert other.upper - other.mean == near((one.upper - one.mean) * scale, abs=1e-6)
    assert one.lower <= one.mean <= one.upper


@given(values, st.floats(-50, 50), st.floats(0.1, 20))
def test_capability_has_no_unit(row: list[float], shift: float, scale: float) -> None:
    assume(individuals(row).spread > 0.05)
    one = capability(row, -60, 60)
    other = capability([v * scale + shift for v in row], -60 * scale + shift, 60 * scale + shift)
    assert (other.cp, other.cpk, other.pp, other.ppk) == near((one.cp, one.cpk, one.pp, one.ppk), rel=1e-5, abs=1e-6)
    assert one.pp is not None
    assert one.pp_limits is not None
    assert one.ppk <= one.pp
    assert one.pp in one.pp_limits
    assert one.ppk in one.ppk_limits


cells = st.lists(st.integers(-99, 99).map(lambda v: v / 100), min_size=2, max_size=2)
studies = st.lists(st.lists(cells, min_size=2, max_size=2), min_size=2, max_size=6)


@given(studies, st.floats(-9, 9))
def test_spreads_of_a_gauge_study_add_up(readings: list[list[list[float]]], shift: float) -> None:
    assume(len({x for piece in readings for cell in piece for x in cell}) > 2)
    assume(any(a != b for piece in readings for a, b in piece))
    study = gauge_study(readings, tolerance=2.0)
    assert study.gauge**2 == near(study.repeating**2 + study.between_people**2)
    assert study.total**2 == near(study.gauge**2 + study.pieces**2)
    moved = gauge_study([[[x + shift for x in cell] for cell in piece] for piece in readings], tolerance=2.0)
    assert (moved.gauge, moved.pieces) == near((study.gauge, study.pieces), abs=1e-6)


@given(counts, counts)
def test_a_change_seen_from_the_other_side(before: tuple[int, int], since: tuple[int, int]) -> None:
    there, back = difference_limits(*since, *before), difference_limits(*before, *since)
    assert (there.low, there.high) == near((-back.high, -back.low), abs=1e-12)
    one, other = compare_shares(*before, *since), compare_shares(*since, *before)
    assert one.difference == near(-other.difference)
    assert one.limits.low - 1e-12 <= one.difference <= one.limits.high + 1e-12
    assert one.luck.either == near(other.luck.either)
    assert one.luck.fewer == near(other.luck.more)


@given(values, values, st.integers(-300, 300).map(lambda v: v / 10))
def test_a_shift_is_found_as_a_shift(before: list[float], since: list[float], shift: float) -> None:
    assume(len(set(before)) > 1 and len(set(since)) > 1)
    for test in (welch, mann_whitney):
        one, other = test(before, since), test(before, [v + shift for v in since])
        assert other.shift == near(one.shift + shift, abs=1e-6)
        assert one.limits.low <= one.shift + 1e-9
        assert one.shift - 1e-9 <= one.limits.high
        assert 0 <= one.luck <= 1
