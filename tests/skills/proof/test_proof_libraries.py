"""The same figures from SciPy, statsmodels and scikit-learn, which only these tests need."""

from __future__ import annotations

import math

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import optimize, stats
from sklearn.metrics import cohen_kappa_score
from statsmodels.formula.api import ols
from statsmodels.stats.contingency_tables import mcnemar
from statsmodels.stats.inter_rater import cohens_kappa as library_kappa
from statsmodels.stats.inter_rater import fleiss_kappa as library_fleiss
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from site_builder.skills.proof import chances
from site_builder.skills.proof.agreement import cohen_kappa, fleiss_kappa, tally
from site_builder.skills.proof.capability import cp_limits
from site_builder.skills.proof.comparison import difference_limits, fisher_exact
from site_builder.skills.proof.curve_fit import Lot, fit_curve
from site_builder.skills.proof.gauge_study import gauge_study
from site_builder.skills.proof.leaning import even_split
from site_builder.skills.proof.pieces import clopper_pearson, wilson
from site_builder.skills.proof.sequential import Plan
from site_builder.skills.proof.steadiness import steadiness
from site_builder.skills.proof.straight_line import straight_line
from site_builder.skills.proof.success_run import pieces_needed
from site_builder.skills.proof.values_compared import mann_whitney, welch

near = pytest.approx
shapes = st.floats(0.1, 5000)
shares = st.floats(1e-6, 1 - 1e-6)
freedoms = st.floats(0.5, 3000)
sure = st.floats(0.5, 0.999)


@st.composite
def counts(draw: st.DrawFn, least: int = 1) -> tuple[int, int]:
    of = draw(st.integers(least, 2000))
    return draw(st.integers(0, of)), of


@given(shares, shapes, shapes)
def test_beta(share: float, a: float, b: float) -> None:
    point = chances.beta_quantile(share, a, b)
    assert point == near(stats.beta.ppf(share, a, b), rel=1e-7, abs=1e-290)
    assert chances.beta_below(point, a, b) == near(stats.beta.cdf(point, a, b), rel=1e-8, abs=1e-290)


@given(shares, freedoms)
def test_student_and_chi_square(share: float, freedom: float) -> None:
    assert chances.student_quantile(share, freedom) == near(stats.t.ppf(share, freedom), rel=1e-7, abs=1e-9)
    assert chances.chi_square_quantile(share, freedom) == near(stats.chi2.ppf(share, freedom), rel=1e-7, abs=1e-290)


@given(st.floats(-30, 30), st.floats(0.001, 50), freedoms, freedoms)
def test_tails(point: float, ratio: float, a: float, b: float) -> None:
    assert chances.normal_above(point) == near(stats.norm.sf(point), rel=1e-12)
    assert chances.student_above(point, a) == near(stats.t.sf(point, a), rel=1e-8, abs=1e-290)
    assert chances.variance_ratio_above(ratio, a, b) == near(stats.f.sf(ratio, a, b), rel=1e-7, abs=1e-12)


@given(counts(), st.floats(0.001, 0.999))
def test_binomial(count: tuple[int, int], chance: float) -> None:
    hits, tries = count
    assert chances.binomial_at_most(hits, tries, chance) == near(
        stats.binom.cdf(hits, tries, chance), rel=1e-7, abs=1e-290
    )


@given(counts(), sure)
def test_limits_of_a_share(count: tuple[int, int], confidence: float) -> None:
    good, made = count
    for ours, method in ((clopper_pearson, "beta"), (wilson, "wilson")):
        found = ours(good, made, confidence)
        assert (found.low, found.high) == near(proportion_confint(good, made, 1 - confidence, method), abs=1e-9)


@given(st.floats(0.5, 0.99), st.floats(0.5, 0.99), st.integers(0, 5))
@settings(max_examples=40)
def test_pieces_needed_are_the_fewest_by_the_binomial(share: float, confidence: float, faults: int) -> None:
    needed = pieces_needed(share, confidence, faults)
    proves = stats.binom.cdf(faults, np.arange(faults + 1, needed + 1), 1 - share) <= (1 - confidence) * (1 + 1e-12)
    assert proves[-1]
    assert not proves[:-1].any()


tables = st.integers(2, 5).flatmap(
    lambda size: st.lists(st.lists(st.integers(0, 30), min_size=size, max_size=size), min_size=size, max_size=size)
)


@given(tables, st.sampled_from(["none", "linear", "quadratic"]))
def test_cohens_kappa(table: list[list[int]], weights: str) -> None:
    assume(sum(map(sum, table)) > 0)
    ours = cohen_kappa(table, weights)
    assume(ours is not None and ours.error_by_luck > 1e-6)
    steps = np.arange(len(table))
    apart = {"none": None, "linear": steps, "quadratic": np.subtract.outer(steps, steps) ** 2}[weights]
    theirs = library_kappa(np.array(table), weights=apart)
    assert (ours.value, ours.error) == near((theirs.kappa, theirs.std_kappa), abs=1e-9)
    assert ours.error_by_luck == near(theirs.std_kappa0, abs=1e-9)


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=2, max_size=40))
def test_kappa_of_two_lists_of_grades(pairs: list[tuple[int, int]]) -> None:
    first, second = [a for a, _ in pairs], [b for _, b in pairs]
    grades = sorted({*first, *second})
    assume(len(grades) > 1)
    for ours, theirs in (("none", None), ("linear", "linear"), ("quadratic", "quadratic")):
        found = cohen_kappa(tally(first, second, grades), ours)
        assume(found is not None)
        assert found.value == near(cohen_kappa_score(first, second, labels=grades, weights=theirs), abs=1e-9)


@given(st.integers(2, 9), st.lists(st.floats(0, 1), min_size=2, max_size=20))
def test_fleiss(graders: int, leanings: list[float]) -> None:
    rows = [[round(graders * lean), graders - round(graders * lean)] for lean in leanings]
    ours = fleiss_kappa(rows)
    assume(ours is not None)
    assert ours.value == near(library_fleiss(np.array(rows)), abs=1e-9)


@given(st.integers(0, 60), st.integers(0, 60))
def test_even_split(one: int, other: int) -> None:
    assume(one + other > 0)
    assert even_split(one, other) == near(mcnemar([[0, one], [other, 0]], exact=True).pvalue)


points = st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=3, max_size=30)


@given(points)
def test_straight_line(places: list[tuple[float, float]]) -> None:
    x, y = [a for a, _ in places], [b for _, b in places]
    assume(np.ptp(x) > 0.1 and np.ptp(y) > 0.1)
    ours, theirs = straight_line(x, y), stats.linregress(x, y)
    assert (ours.slope, ours.start) == near((theirs.slope, theirs.intercept), abs=1e-6)
    assert (ours.slope_error, ours.start_error) == near((theirs.stderr, theirs.intercept_stderr), abs=1e-4, rel=1e-6)


@given(st.lists(st.floats(0.5, 60), min_size=4, max_size=25), sure)
@settings(max_examples=40)
def test_band_of_a_learning_curve(times: list[float], confidence: float) -> None:
    """Single pieces are a plain regression of logarithms."""
    fitted = fit_curve([Lot(1, t) for t in times], confidence=confidence)
    design = sm.add_constant(np.log(np.arange(1, len(times) + 1)))
    regression = sm.OLS(np.log(times), design).fit()
    low, high = regression.get_prediction([1, math.log(3)]).conf_int(alpha=1 - confidence)[0]
    middle, band = fitted.mean_time(3)
    assert math.log(middle) == near(regression.predict([1, math.log(3)])[0], abs=1e-9)
    assert (math.log(band.low), math.log(band.high)) == near((low, high), abs=1e-7)


@given(counts(), counts(), sure)
def test_difference_of_shares(one: tuple[int, int], two: tuple[int, int], confidence: float) -> None:
    ours = difference_limits(*one, *two, confidence)
    theirs = confint_proportions_2indep(*one, *two, method="newcomb", compare="diff", alpha=1 - confidence)
    assert (ours.low, ours.high) == near(np.clip(theirs, -1, 1), abs=1e-9)


small = st.integers(1, 60).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


@given(small, small)
def test_fishers_exact_test(before: tuple[int, int], since: tuple[int, int]) -> None:
    ours = fisher_exact(*before, *since)
    table = [[since[0], since[1] - since[0]], [before[0], before[1] - before[0]]]
    for figure, side in ((ours.either, "two-sided"), (ours.fewer, "less"), (ours.more, "greater")):
        assert figure == near(stats.fisher_exact(table, alternative=side).pvalue, rel=1e-6)


rows = st.lists(st.floats(-100, 100).map(lambda v: round(v, 3)), min_size=3, max_size=30)


@given(rows, rows, sure)
def test_welch(before: list[float], since: list[float], confidence: float) -> None:
    assume(np.ptp(before) > 0.01 and np.ptp(since) > 0.01)
    ours, theirs = welch(before, since, confidence), stats.ttest_ind(since, before, equal_var=False)
    assert (ours.statistic, ours.freedom, ours.luck) == near((theirs.statistic, theirs.df, theirs.pvalue), rel=1e-6)
    assert (ours.limits.low, ours.limits.high) == near(
        tuple(theirs.confidence_interval(confidence)), rel=1e-6, abs=1e-9
    )


@given(rows, rows)
def test_mann_whitney(before: list[float], since: list[float]) -> None:
    assume(len({*before, *since}) > 1)
    ours = mann_whitney(before, since)
    tied = len({*before, *since}) < len(before) + len(since)
    theirs = stats.mannwhitneyu(since, before, method="asymptotic" if tied else "exact")
    assert ours.statistic == near(theirs.statistic)
    assert ours.luck == near(theirs.pvalue, rel=1e-9)


@given(st.integers(2, 300), sure)
def test_limits_of_an_index(measured: int, confidence: float) -> None:
    ours = cp_limits(1.0, measured, confidence)
    ends = stats.chi2.ppf([(1 - confidence) / 2, (1 + confidence) / 2], measured - 1)
    assert (ours.low, ours.high) == near(tuple(np.sqrt(ends / (measured - 1))), rel=1e-7)


@pytest.mark.parametrize("seed", range(4))
def test_gauge_study_against_an_analysis_of_variance(seed: int) -> None:
    chance = np.random.default_rng(seed)
    readings = chance.normal(0, 1, (6, 3, 2)) + chance.normal(0, 3, (6, 1, 1)) + chance.normal(0, 1, (1, 3, 1))
    readings += chance.normal(0, seed, (6, 3, 1))
    place = np.indices(readings.shape).reshape(3, -1)
    frame = pd.DataFrame({"x": readings.ravel(), "piece": place[0].astype(str), "person": place[1].astype(str)})
    table = sm.stats.anova_lm(ols("x ~ piece * person", frame).fit())
    square, freedom = table["sum_sq"], table["df"]
    study = gauge_study(readings.tolist())
    differ = bool(table["PR(>F)"]["piece:person"] <= 0.25)
    assert study.people_differ_by_piece == differ
    again = square["Residual"] / freedom["Residual"]
    if not differ:
        again = (square["Residual"] + square["piece:person"]) / (freedom["Residual"] + freedom["piece:person"])
    noise = square["piece:person"] / freedom["piece:person"] if differ else again
    assert study.repeating**2 == near(again)
    assert study.pieces**2 == near(max(0, square["piece"] / freedom["piece"] - noise) / 6)


def slope_of(ready: float, unready: float) -> float:
    return Plan(ready, unready).slope


@pytest.mark.parametrize(("ready", "steps", "apart"), [(0.02, 15, 50), (0.05, 8, 200), (0.10, 5, 30)])
def test_false_calls_of_steadiness_are_as_seldom_as_promised(ready: float, steps: int, apart: float) -> None:
    """The mean number of pieces to a false call, exactly: a walk on multiples of 1/steps, solved as equations."""
    unready = optimize.brentq(lambda p: slope_of(ready, p) - 1 / steps, ready * 1.001, 0.9)
    limit = steadiness([True], ready, unready, apart).limit
    states = math.floor(limit * steps + 1e-9) + 1
    moves = np.zeros((states, states))
    for at in range(states):
        if at + 1 < states:
            moves[at, at + 1] += 1 - unready
        moves[at, max(0, at + 1 - steps)] += unready
    assert np.linalg.solve(np.eye(states) - moves, np.ones(states))[0] >= apart


@pytest.mark.parametrize("plan", [Plan(0.02, 0.10), Plan(0.05, 0.20, 0.10, 0.05), Plan(0.01, 0.05, 0.02, 0.02)])
def test_risks_of_the_test_that_ends_early(plan: Plan) -> None:
    """Followed exactly, piece by piece, for a hand that is ready and one that is not."""
    passed_unready, _ = ends(plan, plan.unready)
    _, refused_ready = ends(plan, plan.ready)
    assert passed_unready <= plan.risk_passed / (1 - plan.risk_refused)
    assert refused_ready <= plan.risk_refused / (1 - plan.risk_passed)
    assert passed_unready + refused_ready <= plan.risk_passed + plan.risk_refused


def ends(plan: Plan, fault: float) -> tuple[float, float]:
    going, passed, refused = {0: 1.0}, 0.0, 0.0
    for piece in range(1, 3000):
        after: dict[int, float] = {}
        for faults, share in going.items():
            after[faults] = after.get(faults, 0.0) + share * (1 - fault)
            after[faults + 1] = after.get(faults + 1, 0.0) + share * fault
        most, least = plan.passes_with(piece), plan.refused_with(piece)
        going = {}
        for faults, share in after.items():
            if most is not None and faults <= most:
                passed += share
            elif least is not None and faults >= least:
                refused += share
            else:
                going[faults] = share
    assert sum(going.values()) < 1e-6
    return passed, refused
