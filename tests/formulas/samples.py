"""Calls of the arithmetic that no check from outside makes: the sentences, and a few that are quick to ask again."""

from __future__ import annotations

from site_builder.formulas.chain import Size
from site_builder.formulas.going_together import put_together
from site_builder.formulas.profile import circle_through
from site_builder.skills.proof import wording
from site_builder.skills.proof.agreement import agreed, cohen_kappa, fleiss_kappa
from site_builder.skills.proof.capability import capability
from site_builder.skills.proof.comparison import compare_shares
from site_builder.skills.proof.control_limits import individuals
from site_builder.skills.proof.curve_fit import Lot, fit_curve
from site_builder.skills.proof.gauge_study import gauge_study
from site_builder.skills.proof.leaning import leaning
from site_builder.skills.proof.sequential import Plan, judge
from site_builder.skills.proof.standard_time import Element, time_study
from site_builder.skills.proof.steadiness import steadiness
from site_builder.skills.proof.success_run import pieces_due
from site_builder.skills.proof.values_compared import compare_values

_TABLE = [[20, 5], [10, 15]]
_VALUES = (4.9, 5.1, 5.0, 5.2, 4.8, 5.1)


def ask_all() -> None:
    """Each once, with figures that can be."""
    circle_through((1, 0), (0, 1), (-1, 0)).at(0.5)
    put_together([Size("shelf", 10, -0.1, 0.1)], 9.9, 10.1, runs=5)
    put_together([Size("shelf", 10, -0.1, 0.1)], 9.9, 10.1, runs=5, shape="even")
    wording.percent(0.25)
    wording.odds(0.03)
    wording.verdict_on_luck(0.03)
    wording.figure(12.5, 2)
    wording.lasting(12.0)
    wording.percent_of_rate(0.8)
    wording.tell_share(18, 20)
    wording.tell_batch(10.0, 9.0, 40)
    wording.tell_due(pieces_due(0.95, 0.95, 30, 1))
    wording.tell_test(judge([True] * 9, Plan(0.01, 0.1)))
    wording.tell_steadiness(steadiness([True] * 60, 0.01, 0.1))
    wording.tell_agreement(agreed(_TABLE), cohen_kappa(_TABLE), leaning({"1": ("good", "bad")}, ("bad", "good")))
    wording.tell_many(fleiss_kappa([[2, 1], [3, 0], [0, 3]]), 3)
    wording.tell_curve(fit_curve([Lot(5, 60.0), Lot(5, 50.0), Lot(5, 45.0), Lot(5, 43.0)]), 8.0, "min")
    wording.tell_standard(time_study([Element((5.0, 5.2, 4.9))], 0.1, "job time"), 0.1, "job time", "min")
    wording.tell_limits(individuals(_VALUES), "mm")
    wording.tell_capability(capability(_VALUES, 4.0, 6.0))
    wording.tell_gauge(gauge_study([[[5.0, 5.1], [5.0, 5.2]], [[6.0, 6.1], [6.1, 6.0]]], 2.0))
    wording.tell_failures(compare_shares(5, 40, 2, 60), "failed")
    wording.tell_values(compare_values(_VALUES, (5.3, 5.4, 5.2)), "width", "mm")
