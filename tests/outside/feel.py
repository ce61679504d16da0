"""How far graders of the same pieces agree, and which way one of them errs."""

from __future__ import annotations

from typing import Any

from site_builder.skills.proof.agreement import Kappa, agreed, cohen_kappa, fleiss_kappa, strength, tally
from site_builder.skills.proof.leaning import even_split, leaning
from tests.outside.registry import Topic

TOPIC = Topic("feel", "Feel")


def kappa_of(table: list[list[float]], weights: Any = "none") -> Kappa:
    found = cohen_kappa(table, weights)
    assert found is not None
    return found


@TOPIC.check(cohen_kappa, "sas-simple", "sas-weighted")
def with_errors(table: list[list[int]], weights: str) -> list[float]:
    k = kappa_of(table, weights)
    return [k.value, k.error, k.limits.low, k.limits.high, k.error_by_luck, k.sigmas]


@TOPIC.check(cohen_kappa, "wp-20-5-10-15", "wp-45-15-25-15", "wp-25-35-5-35", "paradox-balanced", "paradox-unbalanced")
def plain_kappa(table: list[list[int]]) -> float:
    return kappa_of(table).value


@TOPIC.check(cohen_kappa, "cohen-1968-simple", "cohen-1968-weighted")
def of_proportions(proportions: list[list[float]], weights: Any) -> float:
    return kappa_of(proportions, weights).value


@TOPIC.check(cohen_kappa, "anxiety-23-none", "anxiety-23-quadratic")
@TOPIC.check(tally, "anxiety-23-none", "anxiety-23-quadratic")
def of_lists(rater2: list[int], rater3: list[int], weights: str) -> list[float]:
    """Over the grades given, as R irr reckons."""
    k = kappa_of(tally(rater2, rater3, sorted({*rater2, *rater3})), weights)
    return [k.value, k.sigmas]


@TOPIC.check(fleiss_kappa, "fleiss-1971")
def with_sigmas(counts: list[list[int]]) -> list[float]:
    found = fleiss_kappa(counts)
    assert found is not None
    return [found.value, found.sigmas]


@TOPIC.check(fleiss_kappa, "fleiss-encyclopedia", "randolph-7-1-3-5", "randolph-6-1-0")
def of_many(counts: list[list[int]]) -> float:
    return with_sigmas(counts)[0]


@TOPIC.check(agreed, "agreed-wp-1", "agreed-wp-2", "agreed-paradox")
def share_agreed(table: list[list[int]]) -> float:
    return agreed(table).share


@TOPIC.check(
    strength,
    *(f"band-{v}" for v in ("-0.01", "0.2", "0.21", "0.4", "0.41", "0.6", "0.61", "0.8", "0.81", "1.0")),
)
def band(kappa: float) -> str:
    return strength(kappa)


@TOPIC.check(even_split, "mcnemar-15-19", "sign-1-9")
def split(one: int, other: int) -> float:
    return even_split(one, other)


@TOPIC.check(leaning, "mcnemar-15-19", "sign-1-9")
def luck_of_leaning(one: int, other: int) -> float:
    grades = {f"p{i}": ("bad", "good") for i in range(one)} | {f"t{i}": ("good", "bad") for i in range(other)}
    return leaning(grades, ["bad", "good"]).luck
