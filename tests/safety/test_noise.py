"""Noise of a day at the grinder, and what the ear defenders make of it."""

from __future__ import annotations

from math import inf, log10, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.formulas.errors import Impossible
from site_builder.safety.hearing import (
    BONE_CONDUCTION,
    ear_level_by_snr,
    halved_counted,
    label_counted,
    niosh_counted,
    reduction_by_hml,
    with_second,
    worn_part_of_the_time,
)
from site_builder.safety.noise import (
    NIOSH,
    OSHA_ACTION,
    OSHA_LIMIT,
    NoiseRule,
    NoisySpell,
    daily_level,
    dose,
    eight_hour_level,
    hours_allowed,
    hours_left,
    quieter_by,
)

RULES = (OSHA_LIMIT, OSHA_ACTION, NIOSH)
DAY = (NoisySpell(92, 3), NoisySpell(86, 2), NoisySpell(72, 3))
"""Grinding, spinning, and packing."""

levels = st.floats(60, 130)
days = st.lists(st.builds(NoisySpell, levels, st.floats(0.01, 3)), min_size=1, max_size=7)
rules = st.sampled_from(RULES)


def test_the_two_rules_tell_this_day_apart() -> None:
    """By hand: 3 h of 6.063 and 2 h of 13.93 are 64 % by the action rule, 49 % against the limit; by the 3 dB rule
    3 h of 1.587 and 2 h of 6.350 are 220 %."""
    assert dose(DAY, OSHA_ACTION) == pytest.approx(0.638, abs=0.001)
    assert dose(DAY, OSHA_LIMIT) == pytest.approx(0.495, abs=0.001)
    assert dose(DAY, NIOSH) == pytest.approx(2.205, abs=0.001)
    assert eight_hour_level(dose(DAY, NIOSH), NIOSH) == pytest.approx(88.4, abs=0.05)


def test_what_is_under_the_threshold_is_not_counted_but_makes_noise_all_the_same() -> None:
    quiet = [NoisySpell(79, 8)]
    assert dose(quiet, NIOSH) == dose(quiet, OSHA_ACTION) == dose(quiet, OSHA_LIMIT) == 0
    assert daily_level(quiet) == pytest.approx(79)


def test_time_left_until_the_dose_is_full() -> None:
    """By the 3 dB rule 92 dB(A) may last 95 minutes; after one hour of it 35 are left, and none after two."""
    assert hours_left([NoisySpell(92, 1)], 92, NIOSH) * 60 == pytest.approx(35.2, abs=0.1)
    assert hours_left([NoisySpell(92, 2)], 92, NIOSH) == 0
    assert hours_left([], 92, NIOSH, share=0.5) == pytest.approx(hours_allowed(92, NIOSH) / 2)


def test_a_quiet_place_is_bounded_by_the_day() -> None:
    assert hours_left([NoisySpell(92, 1)], 70, NIOSH) == 23
    assert hours_left([NoisySpell(70, 20)], 80, OSHA_ACTION) == 4


@given(levels, st.floats(0, 30), rules)
def test_louder_never_allows_longer(level: float, more: float, rule: NoiseRule) -> None:
    assert hours_allowed(level + more, rule) <= hours_allowed(level, rule)
    if level + rule.exchange <= (rule.ceiling or level + rule.exchange):
        assert hours_allowed(level + rule.exchange, rule) == pytest.approx(hours_allowed(level, rule) / 2)


@given(days, rules, st.floats(0, 10))
def test_more_noise_never_makes_less_dose(day: list[NoisySpell], rule: NoiseRule, more: float) -> None:
    louder = [NoisySpell(spell.level + more, spell.hours) for spell in day]
    longer = [*day, NoisySpell(90, min(more, 3))]
    assert dose(louder, rule) >= dose(day, rule)
    assert dose(longer, rule) >= dose(day, rule)
    assert daily_level(louder) == pytest.approx(daily_level(day) + more)


@given(days, rules)
def test_the_order_of_the_day_changes_nothing(day: list[NoisySpell], rule: NoiseRule) -> None:
    assert dose(day[::-1], rule) == pytest.approx(dose(day, rule))
    assert daily_level(day[::-1]) == pytest.approx(daily_level(day))


@given(levels, st.floats(0.1, 12), rules)
def test_a_spell_cut_in_two_is_the_same_spell(level: float, hours: float, rule: NoiseRule) -> None:
    whole, halves = [NoisySpell(level, hours)], [NoisySpell(level, hours / 2)] * 2
    assert dose(halves, rule) == pytest.approx(dose(whole, rule))


@given(levels, rules)
def test_eight_hours_of_a_level_are_that_level(level: float, rule: NoiseRule) -> None:
    of_day = dose([NoisySpell(level, 8)], NoiseRule("all", rule.criterion, rule.exchange))
    assert eight_hour_level(of_day, rule) == pytest.approx(level)
    assert daily_level([NoisySpell(level, 8)]) == pytest.approx(level)


@given(st.floats(0.05, 10))
def test_the_printed_factors_hold(of_dose: float) -> None:
    """16.61 of Appendix A to a hundredth; the 10 of NIOSH 98-126 to 0.05 dB for each tenfold of dose."""
    assert eight_hour_level(of_dose, OSHA_LIMIT) == pytest.approx(16.61 * log10(of_dose) + 90, abs=0.01)
    assert eight_hour_level(of_dose, NIOSH) == pytest.approx(10 * log10(of_dose) + 85, abs=0.05)


@given(days, levels, rules)
def test_the_time_left_fills_the_dose_and_no_more(day: list[NoisySpell], level: float, rule: NoiseRule) -> None:
    left = hours_left(day, level, rule)
    assert left >= 0
    before, after = dose(day, rule), dose([*day, NoisySpell(level, left)], rule)
    assert after <= max(before, 1) + 1e-9
    if before < 1 and 100 <= level <= (rule.ceiling or level):
        assert after == pytest.approx(1)


@given(days, st.floats(0, 40), st.floats(0, 10), rules)
def test_more_protection_never_lets_more_through(
    day: list[NoisySpell], counted: float, more: float, rule: NoiseRule
) -> None:
    assert dose(quieter_by(day, counted + more), rule) <= dose(quieter_by(day, counted), rule)
    assert quieter_by(day, 0) == tuple(day)


def test_the_defenders_of_the_shop() -> None:
    """27 dB on the box. By NIOSH three quarters for muffs, less 7 against dB(A); by half, 10 either way of 92."""
    assert niosh_counted(27, "muffs") == pytest.approx(13.25)
    assert halved_counted(27) == 10
    assert dose(quieter_by(DAY, 13.25), NIOSH) == 0
    # taken off for six minutes in the hour they are worth less than ten
    assert worn_part_of_the_time(13.25, 0.9) == pytest.approx(8.5, abs=0.1)


@given(st.floats(0, 40), st.sampled_from(["A", "C"]))
def test_less_is_counted_on_than_the_box_says(nrr: float, weighting: str) -> None:
    for counted in (
        label_counted(nrr, weighting),  # type: ignore[arg-type]
        halved_counted(nrr, weighting),  # type: ignore[arg-type]
        *(niosh_counted(nrr, kind, weighting) for kind in ("muffs", "formable plugs", "other plugs")),  # type: ignore[arg-type]
    ):
        assert 0 <= counted <= nrr
        assert with_second(counted) == min(counted + 5, BONE_CONDUCTION)


@given(st.floats(0, 60), st.floats(0, 1), st.floats(0, 1))
def test_what_is_worn_longer_protects_more(counted: float, share: float, longer: float) -> None:
    low, high = sorted((share, longer))
    assert -1e-9 <= worn_part_of_the_time(counted, low) <= worn_part_of_the_time(counted, high) + 1e-9
    assert worn_part_of_the_time(counted, 1) == pytest.approx(min(counted, BONE_CONDUCTION))
    assert worn_part_of_the_time(counted, 0.5) < 3.02


@given(st.floats(70, 120), st.floats(-2, 15), st.floats(0, 5))
def test_rumble_gets_through(level: float, rumble: float, more: float) -> None:
    few = reduction_by_hml(level, level + rumble, 30, 24, 18)
    assert reduction_by_hml(level, level + rumble + more, 30, 24, 18) <= few
    assert reduction_by_hml(level, level + 2, 30, 24, 18) == pytest.approx(24)


@pytest.mark.parametrize(
    ("ask", "argument", "unit"),
    [
        (lambda: NoisySpell(-1, 1), "noise level", "dB(A)"),
        (lambda: NoisySpell(200, 1), "noise level", "dB(A)"),
        (lambda: NoisySpell(nan, 1), "noise level", "dB(A)"),
        (lambda: NoisySpell(90, -1), "time in the noise", "h"),
        (lambda: NoisySpell(90, 25), "time in the noise", "h"),
        (lambda: NoiseRule("none", 90, 0), "exchange rate", "dB"),
        (lambda: NoiseRule("none", 300, 3), "criterion", "dB(A)"),
        (lambda: NoiseRule("none", 90, 3, -5), "threshold", "dB(A)"),
        (lambda: hours_allowed(inf, NIOSH), "noise level", "dB(A)"),
        (lambda: dose([NoisySpell(90, 13)] * 2, NIOSH), "time in the noise", "h"),
        (lambda: daily_level([]), "time in the noise", "h"),
        (lambda: eight_hour_level(0, NIOSH), "noise dose", "share"),
        (lambda: hours_left([], 90, NIOSH, 0), "share of the dose", "share"),
        (lambda: quieter_by(DAY, -3), "protection", "dB"),
        (lambda: label_counted(-3), "NRR", "dB"),
        (lambda: niosh_counted(-3, "muffs"), "NRR", "dB"),
        (lambda: with_second(-1), "protection", "dB"),
        (lambda: ear_level_by_snr(95, -1), "SNR", "dB"),
        (lambda: ear_level_by_snr(95, 20, -4), "real-world loss", "dB"),
        (lambda: reduction_by_hml(95, 97, 20, 24, 18), "H", "dB"),
        (lambda: reduction_by_hml(95, 97, 30, 16, 18), "M", "dB"),
        (lambda: worn_part_of_the_time(20, 1.1), "share of the time worn", "share"),
    ],
)
def test_what_no_noise_can_be(ask: object, argument: str, unit: str) -> None:
    with pytest.raises(Impossible) as caught:
        ask()  # type: ignore[operator]
    assert (caught.value.argument, caught.value.unit) == (argument, unit)


def test_over_115_decibels_the_5_db_rule_allows_no_time_and_the_dose_goes_on() -> None:
    """29 CFR 1910.95: Table G-16 ends with 115 dB(A) for a quarter of an hour; Table G-16a of Appendix A, for the
    dose, goes on to 130 dB(A) and two minutes."""
    assert hours_allowed(115, OSHA_LIMIT) == pytest.approx(0.25)
    assert hours_allowed(115.1, OSHA_LIMIT) == 0
    assert dose([NoisySpell(116, 0.01)], OSHA_LIMIT) == inf
    assert dose([NoisySpell(116, 0)], OSHA_LIMIT) == 0
    assert hours_left([], 116, OSHA_LIMIT) == hours_left([NoisySpell(116, 0.1)], 95, OSHA_LIMIT) == 0
    assert hours_allowed(130, OSHA_ACTION) * 60 == pytest.approx(1.875)
    assert hours_allowed(140.1, NIOSH) == 0


@given(st.floats(0, 194), st.floats(0, 60), st.floats(0, 60))
def test_under_protection_it_is_never_louder_than_outside_nor_quieter_than_through_the_bones(
    level: float, snr: float, real_world: float
) -> None:
    ear = ear_level_by_snr(level, snr, real_world)
    assert max(level - BONE_CONDUCTION, 0) <= ear <= level
    (spell,) = quieter_by([NoisySpell(level, 1)], snr)
    assert max(level - BONE_CONDUCTION, 0) <= spell.level <= level


@pytest.mark.parametrize("weighting", ["", "a", "Z", "dB", None, "A "])
def test_a_weighting_that_is_not_known_is_not_taken_for_c(weighting: str) -> None:
    for counted in (label_counted, halved_counted, lambda nrr, known: niosh_counted(nrr, "muffs", known)):
        with pytest.raises(Impossible, match="weighting of the noise must be one of A, C"):
            counted(25, weighting)  # type: ignore[arg-type]
