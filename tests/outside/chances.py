"""Chances and quantiles as tables print them, and lines through points."""

from __future__ import annotations

from site_builder.skills.proof.chances import (
    beta_below,
    beta_quantile,
    binomial_at_most,
    chi_square_below,
    chi_square_quantile,
    normal_above,
    normal_quantile,
    student_above,
    student_quantile,
    variance_ratio_above,
)
from site_builder.skills.proof.straight_line import straight_line
from tests.outside.registry import Topic

TOPIC = Topic("chances", "Chances")

TOPIC.check(normal_quantile, "z-0.975", "z-0.95", "z-0.995")(normal_quantile)
TOPIC.check(normal_above, "above-1.96", "above-1.645", "above-3.0")(normal_above)
TOPIC.check(beta_below, "beta-1-3", "beta-2-3")(beta_below)
TOPIC.check(beta_quantile, "betaq-1-20", "betaq-3-3")(beta_quantile)
TOPIC.check(binomial_at_most, "binom-3-10", "binom-2-20", "binom-2-5")(binomial_at_most)
TOPIC.check(student_above, "t-above-2.228", "t-above-12.706", "t-above-1.645")(student_above)
TOPIC.check(student_quantile, "t-0.975-10", "t-0.95-5", "t-0.975-1")(student_quantile)
TOPIC.check(variance_ratio_above, "f-1-20", "f-5-10", "f-1-1")(variance_ratio_above)
TOPIC.check(chi_square_below, "chi-below-1", "chi-below-10")(chi_square_below)
TOPIC.check(chi_square_quantile, "chi-0.025-19", "chi-0.975-19", "chi-0.95-10")(chi_square_quantile)


@TOPIC.check(straight_line, "norris")
def certified(x: list[float], y: list[float]) -> list[float]:
    line = straight_line(x, y)
    return [line.start, line.start_error, line.slope, line.slope_error, line.scatter]


@TOPIC.check(straight_line, "paper-mill")
def slope_alone(x: list[float], y: list[float]) -> list[float]:
    return [straight_line(x, y).slope]
