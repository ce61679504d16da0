"""Shares of good pieces, runs without a fault, tests that end early and running sums."""

from __future__ import annotations

from site_builder.formulas.interval import Interval
from site_builder.skills.proof.pieces import clopper_pearson, clopper_pearson_at_least, wilson, wilson_at_least
from site_builder.skills.proof.sequential import Plan, judge
from site_builder.skills.proof.steadiness import running_sum, steadiness
from site_builder.skills.proof.success_run import Formula, pieces_due, pieces_needed, share_shown
from tests.outside.registry import Topic, reference

TOPIC = Topic("pieces", "Pieces")


def named(*starts: str) -> tuple[str, ...]:
    return tuple(each for each in reference("pieces") if each.startswith(starts) and not each.endswith("-prior"))


@TOPIC.check(clopper_pearson, *named("cp-"), "r-100-200-beta")
def exact_limits(x: int, n: int) -> Interval:
    return clopper_pearson(x, n)


@TOPIC.check(wilson, *named("wilson-0", "wilson-1", "wilson-81"))
def score_limits(x: int, n: int) -> Interval:
    return wilson(x, n)


@TOPIC.check(clopper_pearson_at_least, "r-100-200-lower-beta")
def exact_least(x: int, n: int, confidence: float) -> float:
    return clopper_pearson_at_least(x, n, confidence)


@TOPIC.check(clopper_pearson_at_least, *named("rule3-"))
def most_that_fail(n: int) -> float:
    """No event in n: at most about 3 in n fail."""
    return 1 - clopper_pearson_at_least(n, n, 0.95)


@TOPIC.check(wilson_at_least, "r-100-200-lower-wilson", "wilson-low-81-263")
def score_least(x: int, n: int, confidence: float) -> float:
    return wilson_at_least(x, n, confidence)


@TOPIC.check(pieces_needed, *named("srun-", "fail-"))
def needed(confidence: float, reliability: float, failures: int) -> int:
    return pieces_needed(reliability, confidence, failures)


@TOPIC.check(pieces_needed, "srun-95-95-prior", "srun-99-90-prior")
def needed_with_prior(confidence: float, reliability: float) -> int:
    return pieces_needed(reliability, confidence, formula="uniform prior")


@TOPIC.check(share_shown, *named("nplus1-"), "n-29", "n-10")
def shown(n: int, confidence: float, formula: Formula) -> float:
    return share_shown(n, confidence, formula=formula)


@TOPIC.check(pieces_due, "due-40", "due-50-1")
def more(confidence: float, reliability: float, made: int, failures: int) -> int:
    return pieces_due(reliability, confidence, made, failures).more


@TOPIC.check(Plan, "sprt-nist", "sprt-wald", "sprt-10-20", "sprt-5-10")
def lines(p1: float, p2: float, alpha: float, beta: float) -> list[float]:
    plan = Plan(ready=p1, unready=p2, risk_refused=alpha, risk_passed=beta)
    return [plan.pass_height, plan.refuse_height, plan.slope]


@TOPIC.check(judge, "sprt-first-accept", "sprt-first-reject")
def ends_at(defects: list[int]) -> int | None:
    return judge([not each for each in defects], Plan(ready=0.01, unready=0.10, risk_refused=0.05, risk_passed=0.10)).at


@TOPIC.check(running_sum, "cusum-mr-low")
def sums_of_shortfall(x: list[float], target: float, K: float) -> list[float]:  # noqa: N803
    return list(running_sum(x, target, K, "down").sums)


@TOPIC.check(running_sum, "cusum-nist-signal")
def first_signal(x: list[float], mean: float, k: float, h: float) -> int | None:
    return running_sum(x, mean, k, "up").first_over(h)


@TOPIC.check(steadiness, "steady-10-20", "steady-5-30")
def called_steady_at(ready: float, unready: float, apart: float) -> int:
    return steadiness([True] * 100, ready, unready, apart).turns[0].seen
