"""Noise and hearing protection, against published values."""

from __future__ import annotations

from math import inf

from site_builder.safety.hearing import (
    Kind,
    Weighting,
    counted_at_most,
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
from site_builder.safety.verdict import NOISE_EU, NOISE_OSHA, verdict
from tests.outside.registry import Topic, reference
from tests.outside.units import HOUR, PER_CENT

TOPIC = Topic("noise", "Noise and hearing protection")

_IDS = tuple(reference("noise"))


def named(start: str) -> tuple[str, ...]:
    return tuple(each for each in _IDS if each.startswith(start))


def spells(periods: list[list[float]]) -> list[NoisySpell]:
    return [NoisySpell(level, hours) for level, hours in periods]


@TOPIC.check(hours_allowed, *named("osha-g16"))
def osha_hours(level_dBA: float) -> float:  # noqa: N803
    return hours_allowed(level_dBA, OSHA_ACTION)


@TOPIC.check(hours_allowed, *(each for each in named("niosh-") if each[6:].isdigit()))
def niosh_seconds(level_dBA: float) -> float:  # noqa: N803
    return hours_allowed(level_dBA, NIOSH) * HOUR


@TOPIC.check(hours_allowed, *named("niosh-cdc"))
def niosh_minutes(level_dBA: float) -> float:  # noqa: N803
    return hours_allowed(level_dBA, NIOSH) * 60


@TOPIC.check(hours_allowed, *named("canada"))
def other_rule(level_dBA: float, criterion_dBA: float, exchange_dB: float) -> float:  # noqa: N803
    return hours_allowed(level_dBA, NoiseRule("87 dB, 3 dB", criterion_dBA, exchange_dB))


@TOPIC.check(eight_hour_level, "osha-action-level", "osha-multitask-twa", *named("osha-a1"))
def osha_level(dose_percent: float) -> float:
    return eight_hour_level(dose_percent * PER_CENT, OSHA_LIMIT)


@TOPIC.check(dose, "osha-dose-92-8h", "osha-three-periods")
def osha_dose(periods: list[list[float]]) -> float:
    return dose(spells(periods), OSHA_LIMIT) / PER_CENT


STUDY = named("study")


@TOPIC.check(dose, *STUDY)
@TOPIC.check(eight_hour_level, *STUDY)
def four_figures(level_dBA: float, hours: float) -> list[float]:  # noqa: N803
    """OSHA and NIOSH dose and level of a quiet day, with no threshold: the study applies none."""
    day = [NoisySpell(level_dBA, hours)]
    figures = []
    for rule in (NoiseRule("5 dB", 90, 5), NoiseRule("3 dB", 85, 3)):
        of_day = dose(day, rule)
        figures += [of_day / PER_CENT, eight_hour_level(of_day, rule)]
    return figures


@TOPIC.check(hours_left, "osha-left-90")
def osha_left(periods: list[list[float]], level_dBA: float) -> float:  # noqa: N803
    return hours_left(spells(periods), level_dBA, OSHA_LIMIT)


@TOPIC.check(hours_left, "niosh-left-88")
def niosh_left(periods: list[list[float]], level_dBA: float) -> float:  # noqa: N803
    return hours_left(spells(periods), level_dBA, NIOSH) * 60


@TOPIC.check(daily_level, "iso9612-day", "iso9612-planning", "iso9612-welding", "iso9612-grinding")
def daily(periods: list[list[float]]) -> float:
    return daily_level(spells(periods))


@TOPIC.check(verdict, "iso9612-verdict", "eu-limit")
def reached_in_europe(exposure: float) -> str:
    reached = verdict(NOISE_EU, exposure).reached
    return reached.name if reached else ""


@TOPIC.check(verdict, "osha-action-mark")
def reached_by_osha(exposure_percent: float) -> str:
    reached = verdict(NOISE_OSHA, exposure_percent).reached
    return reached.name if reached else ""


def at_the_ear(level: float, counted: float) -> float:
    return quieter_by([NoisySpell(level, 1)], counted)[0].level


@TOPIC.check(quieter_by, "nrr-c-108", "nrr-a-100")
@TOPIC.check(label_counted, "nrr-c-108", "nrr-a-100")
def under_label(level: float, nrr: float, weighting: Weighting) -> float:
    return at_the_ear(level, label_counted(nrr, weighting))


@TOPIC.check(halved_counted, "nrr-half-100", "nrr-half-98", "otm-half-100")
def under_half(level: float, nrr: float, weighting: Weighting) -> float:
    return at_the_ear(level, halved_counted(nrr, weighting))


@TOPIC.check(with_second, "otm-dual-110")
def under_two_halved(level: float, nrr: float, weighting: Weighting) -> float:
    return at_the_ear(level, with_second(halved_counted(nrr, weighting)))


@TOPIC.check(with_second, "dual-c-110")
def under_two(level: float, nrr: float, weighting: Weighting) -> float:
    return at_the_ear(level, with_second(label_counted(nrr, weighting)))


@TOPIC.check(niosh_counted, "niosh-muffs", "niosh-foam", "niosh-other")
def under_kind(level: float, nrr: float, kind: Kind) -> float:
    return at_the_ear(level, niosh_counted(nrr, kind, "C"))


@TOPIC.check(ear_level_by_snr, "snr-97", "snr-95")
def under_snr(level_c: float, snr: float) -> float:
    return ear_level_by_snr(level_c, snr)


@TOPIC.check(reduction_by_hml, "hml-96", "hml-103")
def under_hml(level_a: float, level_c: float, high: float, medium: float, low: float) -> float:
    return level_a - reduction_by_hml(level_a, level_c, high, medium, low) + 4


@TOPIC.check(worn_part_of_the_time, "worn-97", "worn-50-great", "worn-98")
def worn(counted: float, share: float) -> float:
    return worn_part_of_the_time(counted, share)


@TOPIC.check(counted_at_most, "bone-dual-50", "bone-muffs-30")
@TOPIC.check(ear_level_by_snr, "bone-dual-50")
def through_the_bones(rated: float) -> float:
    """Decibels that are left of a rating; of the SNR by a noise of 120 dB(C) with nothing taken off for use."""
    by_snr = 120 - ear_level_by_snr(120, rated, 0)
    assert by_snr == counted_at_most(rated)
    return by_snr


@TOPIC.check(hours_allowed, "osha-over-115", "osha-at-115")
@TOPIC.check(dose, "osha-over-115", "osha-at-115")
def any_time_at_all(level_dBA: float) -> bool:  # noqa: N803
    allowed = hours_allowed(level_dBA, OSHA_LIMIT)
    assert (dose([NoisySpell(level_dBA, 0.01)], OSHA_LIMIT) == inf) is (allowed == 0)
    return allowed > 0
