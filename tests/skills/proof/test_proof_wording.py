"""Proofs in a craftsman's words."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.skills.proof.agreement import agreed, cohen_kappa, fleiss_kappa, tally
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
from site_builder.skills.proof.values_compared import mann_whitney, welch
from site_builder.skills.proof.wording import (
    figure,
    odds,
    percent,
    tell_agreement,
    tell_batch,
    tell_capability,
    tell_curve,
    tell_due,
    tell_failures,
    tell_gauge,
    tell_limits,
    tell_many,
    tell_share,
    tell_standard,
    tell_steadiness,
    tell_test,
    tell_values,
)


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (0, "0 %"),
        (0.0004, "under 0.1 %"),
        (0.004, "0.4 %"),
        (0.5, "50 %"),
        (0.987, "99 %"),
        (0.9979, "99.7 %"),
        (0.99951, "over 99.9 %"),
        (1, "100 %"),
    ],
)
def test_nothing_becomes_sure_by_rounding(share: float, told: str) -> None:
    assert percent(share) == told


@given(st.floats(0, 1, exclude_min=True, exclude_max=True))
def test_only_all_is_a_hundred_and_only_none_is_nothing(share: float) -> None:
    assert percent(share) not in ("0 %", "100 %")


@pytest.mark.parametrize(
    ("luck", "told"),
    [
        (0.0002, "less than once in 1000 times"),
        (0.0021, "once in 480 times"),
        (0.031, "once in 32 times"),
        (0.11, "one time in ten"),
        (0.47, "five times in ten"),
        (1.0, "nearly always"),
    ],
)
def test_luck_is_told_in_times(luck: float, told: str) -> None:
    assert odds(luck) == told


@pytest.mark.parametrize(
    ("value", "told"), [(0, "0"), (0.01234, "0.0123"), (12.0, "12"), (1234.5, "1234"), (-2.5, "-2.5")]
)
def test_figures_in_the_digits_that_count(value: float, told: str) -> None:
    assert figure(value) == told


def test_a_change_that_ended_the_breaking() -> None:
    told = tell_failures(compare_shares(41, 380, 0, 120), "came back broken")
    assert told.startswith("Of 380, 41 came back broken before and none of 120 since; chance alone does not do that. ")
    assert told.endswith("in a hundred fewer.")
    under_a_heading = tell_failures(compare_shares(0, 380, 4, 120), "")
    assert under_a_heading.startswith("None of 380 before and 4 of 120 since; ")


def test_a_change_that_shows_nothing_yet() -> None:
    told = tell_failures(compare_shares(3, 40, 1, 30))
    assert "chance alone could well have done that (six times in ten)" in told
    assert "It may be 17 in a hundred fewer, or 10 more." in told


def test_what_an_apprentice_still_owes() -> None:
    assert tell_due(pieces_due(0.95, 0.95, 40, 0)) == (
        "19 more pieces without a fault prove 95 % good with 95 % confidence. "
        "40 pieces so far, none with a fault; so far at least 92 % is shown."
    )
    assert tell_due(pieces_due(0.95, 0.95, 59, 0)).startswith("Proved: 95 % good with 95 % confidence.")
    assert "uniform prior, n + 1" in tell_due(pieces_due(0.95, 0.95, 58, 0, "uniform prior"))
    assert tell_due(pieces_due(0.9, 0.9, 0, 0)).startswith("22 more pieces")


def test_what_is_shown_is_never_told_too_high() -> None:
    """59 pieces show 95.049 %, 58 only 94.97 %: told as 94."""
    assert "at least 94 % is shown" in tell_due(pieces_due(0.95, 0.95, 58, 0))


def test_shares() -> None:
    assert tell_share(0, 0) == "No pieces yet, so nothing is known."
    assert tell_share(81, 263).startswith("81 were good of 263. In the long run somewhere from 26 % to 37 %")
    assert tell_share(7, 7).startswith("All were good of 7.")
    assert tell_share(0, 7).startswith("None was good of 7.")


def test_the_test_that_ends_early() -> None:
    plan = Plan(0.02, 0.10)
    assert tell_test(judge([True] * 27, plan)).startswith("Clearly good enough since piece 27")
    assert tell_test(judge([False] * 3, plan)).startswith("Clearly not ready yet, seen at piece 2")
    assert "without a fault 27 pieces would do" in tell_test(judge([True] * 5, plan))


def test_the_moment_a_hand_became_steady() -> None:
    rough, fine = [True, False, False] * 5, [True] * 40
    assert tell_steadiness(steadiness(rough, 0.03, 0.30)) == "The hand has not become steady yet."
    assert tell_steadiness(steadiness(rough + fine, 0.03, 0.30)).startswith(
        "The hand is steady, most likely from piece 16 on"
    )
    lost = rough + fine + [False, True] * 10
    assert tell_steadiness(steadiness(lost, 0.03, 0.30)).startswith("The hand was steady and has lost it")
    assert tell_steadiness(steadiness(lost + fine, 0.03, 0.30)).startswith("The hand is steady again")


def feel_trial(passed: int, thrown: int, alike: int) -> str:
    grades = {f"{n}": ("bad", "good") for n in range(1, passed + 1)}
    grades |= {f"{n}": ("good", "bad") for n in range(100, 100 + thrown)}
    grades |= {f"{n}": ("good", "good") if n % 2 else ("bad", "bad") for n in range(200, 200 + alike)}
    table = tally([a for a, _ in grades.values()], [b for _, b in grades.values()], ["bad", "good"])
    return tell_agreement(agreed(table), cohen_kappa(table), leaning(grades, ["bad", "good"]))


def test_a_feel_trial_names_the_pieces_before_the_number() -> None:
    told = feel_trial(passed=2, thrown=1, alike=9)
    assert told.startswith("Master and apprentice judged 9 of 12 pieces alike.")
    assert "let pass what the master would not: 1, 2" in told
    assert "threw away what the master would keep: 100" in told
    assert "so few do not prove a habit" in told
    assert told.index("let pass") < told.index("kappa")
    assert "It is a habit: lets bad ones pass." in feel_trial(passed=8, thrown=0, alike=10)
    assert "That errs both ways alike." in feel_trial(passed=1, thrown=1, alike=10)
    assert "No piece was judged otherwise." in feel_trial(passed=0, thrown=0, alike=10)


def test_pieces_all_of_one_kind_ask_for_bad_ones() -> None:
    table = tally(["good"] * 5, ["good"] * 5, ["bad", "good"])
    assert tell_agreement(agreed(table), cohen_kappa(table)).endswith("mix in some bad ones.")
    assert tell_many(fleiss_kappa([[3, 0], [3, 0]]), 3).endswith("mix in some bad ones.")
    assert tell_many(fleiss_kappa([[7, 1], [3, 5]]), 8).startswith("The 8 hands judge alike to a slight degree")


def test_learning() -> None:
    learns = fit_curve([Lot(1, 30), Lot(2, 50), Lot(5, 110), Lot(10, 190)])
    assert tell_curve(learns).startswith(
        "With every doubling of pieces each piece takes 89 % of the time (87 % to 91 %)."
    )
    assert "is likely reached at piece 51, 33 more (not before piece" in tell_curve(learns, 15, "min")
    # piece 181, ten times as far as the hand has come: nobody can look so far ahead
    assert "The standard time of 12 min is not in sight yet: at this pace not before piece" in tell_curve(
        learns, 12, "min")
    assert "The standard time of 25 min was reached at about piece 3." in tell_curve(learns, 25, "min")
    flat = fit_curve([Lot(10, 50), Lot(10, 52), Lot(10, 49)])
    assert tell_curve(flat, 4.5, "min").startswith("That the work gets faster cannot be told yet")
    slower = fit_curve([Lot(1, 10), Lot(1, 12), Lot(1, 13), Lot(1, 14)])
    assert tell_curve(slower, 5, "min").endswith("is out of reach at this pace.")


def test_standard_time() -> None:
    study = time_study([Element([3.0, 3.1, 2.9, 3.3], 1.1)], 0.12, "job time")
    assert tell_standard(study, 0.12, "job time", "min") == (
        "A piece takes 3.79 min; time it 1 more time to be sure of it. Observed 3.08 min, "
        "at the usual pace 3.38 min, with an allowance of 12 % of the job time."
    )


FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
"""The flow-rate example of the NIST/SEMATECH e-Handbook, 6.3.2.2."""


def test_measurements() -> None:
    assert tell_limits(individuals(FLOW), "l/min").startswith("Steady:")
    assert "45.8 to 55.8 l/min" in tell_limits(individuals(FLOW), "l/min")
    assert "look at measurement 11." in tell_limits(individuals([*FLOW, 90.0]), "l/min")
    drift = individuals([1.0, 1.2] * 4 + [1.4, 1.6] * 4)
    assert tell_limits(drift, "mm").startswith("It drifts: by measurement 8 a long run lay on one side of 1.3 mm.")
    assert tell_capability(capability(FLOW, 40, 60)).startswith("The work fits the tolerance, but 10 measurements")
    assert tell_capability(capability(FLOW, 0, 100)).startswith("The work fits the tolerance with room to spare")
    assert tell_capability(capability(FLOW, 30, 52)).startswith("The spread would fit the tolerance")
    wide = tell_capability(capability(FLOW, 48, None))
    assert wide.startswith("The work spreads wider")
    assert wide.endswith("2 of 10 measurements were outside.")


def test_a_gauge() -> None:
    readings = [[[1.0, 1.1], [1.2, 1.1]], [[2.0, 2.1], [2.2, 2.1]], [[3.0, 3.1], [3.2, 3.1]]]
    assert tell_gauge(gauge_study(readings, 20)).startswith("The gauge is good enough: it uses up 3 % of the tolerance")
    assert tell_gauge(gauge_study(readings, 0.2)).startswith("The gauge is not good enough: it uses up 270 % of")
    assert "of all the spread that is seen" in tell_gauge(gauge_study(readings))


def test_values() -> None:
    faster = welch([12.0, 13.0, 12.5, 12.2], [11.0, 10.8, 11.4, 11.2])
    assert tell_values(faster, "time a piece", "min").startswith(
        "Since the change time a piece is about 1.33 min less; chance alone does not do that."
    )
    same = mann_whitney([12.0, 13.0, 12.5, 12.2], [12.0, 12.8, 12.4, 12.2])
    assert tell_values(same, "time a piece", "min").startswith("No change in time a piece can be told")


def test_a_change_that_costs_time_says_how_much_a_batch() -> None:
    assert tell_batch(12, 13.5, 40) == "The change costs 60 min on a batch of 40 (1.5 min a piece)."
    assert tell_batch(13.5, 12, 40).startswith("The change saves 60 min")
    assert tell_batch(12, 12, 40) == "The change costs no time."
    assert tell_batch(9, 4, 260) == "The change saves 22 h on a batch of 260 (5 min a piece)."
    assert tell_batch(25 / 60, 8 / 60, 480) == "The change saves 2 h 16 min on a batch of 480 (17 s a piece)."


counts = st.integers(1, 300).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


@given(counts, counts, st.floats(0.5, 0.99), st.floats(0.5, 0.99))
def test_whatever_the_counts_they_are_told_in_plain_sentences(
    before: tuple[int, int], since: tuple[int, int], share: float, confidence: float
) -> None:
    for told in (
        tell_failures(compare_shares(*before, *since)),
        tell_share(*since, confidence),
        tell_due(pieces_due(share, confidence, since[1], min(since[0], 5))),
    ):
        assert told.endswith(".")
        assert not re.search(r"nan|inf|None(?! was)|  |e-\d|-0 ", told)
