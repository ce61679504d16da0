"""Before and since a change: shares that fail, and values measured."""

from __future__ import annotations

from site_builder.formulas.interval import Interval
from site_builder.skills.proof.comparison import compare_shares, difference_limits, fisher_exact
from site_builder.skills.proof.values_compared import compare_values, mann_whitney, welch
from tests.outside.registry import Topic

TOPIC = Topic("changes", "Changes")

Table = list[list[int]]


def rows(table: Table) -> tuple[int, int, int, int]:
    """The first column counts what is looked at; the second row comes before."""
    (a, b), (c, d) = table
    return c, c + d, a, a + b


@TOPIC.check(difference_limits, "newcombe-a", "newcombe-b", "newcombe-f", "fagerland")
def of_two_shares(a: int, m: int, b: int, n: int) -> Interval:
    return difference_limits(a, m, b, n)


@TOPIC.check(compare_shares, "newcombe-a", "newcombe-b")
def of_a_change(a: int, m: int, b: int, n: int) -> Interval:
    return compare_shares(b, n, a, m).limits


@TOPIC.check(fisher_exact, "tea-p", "tea-3", "obese-one")
def so_many_or_more(table: Table) -> float:
    return fisher_exact(*rows(table)).more


@TOPIC.check(fisher_exact, "tea-two-sided", "r-6-108", "r-22-102", "obese-two")
def either_way(table: Table) -> float:
    return fisher_exact(*rows(table)).either


@TOPIC.check(fisher_exact, "tea-12")
def ways(table: Table) -> float:
    return 1 / fisher_exact(*rows(table)).more


@TOPIC.check(compare_shares, "r-6-108")
def luck_of_a_change(table: Table) -> float:
    return compare_shares(*rows(table)).luck.either


@TOPIC.check(welch, "welch-statscodes", "welch-r-90")
def means(x: list[float], y: list[float], confidence: float) -> list[float]:
    found = welch(y, x, confidence)
    assert found.freedom is not None
    return [found.statistic, found.freedom, found.luck, found.limits.low, found.limits.high]


@TOPIC.check(welch, "welch-15")
def means_in_short(x: list[float], y: list[float]) -> list[float]:
    return [welch(y, x).statistic, welch(y, x).luck]


@TOPIC.check(compare_values, "welch-15")
def fitting_test_of_many(x: list[float], y: list[float]) -> list[float]:
    return [compare_values(y, x).statistic, compare_values(y, x).luck]


@TOPIC.check(mann_whitney, "permeability")
@TOPIC.check(compare_values, "permeability")
def fitting_test_of_few(x: list[float], y: list[float]) -> list[float]:
    return [compare_values(x, y).luck, compare_values(x, y).shift]


@TOPIC.check(mann_whitney, "permeability-limits")
def limits_of_shift(x: list[float], y: list[float]) -> Interval:
    return mann_whitney(x, y).limits


@TOPIC.check(mann_whitney, "covers-3-3", "covers-4-4", "covers-5-5")
def covers(few: int) -> float:
    """What the limits of so many values a side hold, asked for 95 %."""
    return mann_whitney(list(range(few)), [each + 0.5 for each in range(few)]).covers


@TOPIC.check(mann_whitney, "r-exact", "r-ties")
def luck_of_ranks(x: list[float], y: list[float]) -> float:
    return mann_whitney(x, y).luck
