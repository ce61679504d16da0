"""Rules on the trade's arithmetic: what two numbers of the shop cannot both be, and what a third one warns of."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.trade import (
    air_over_limit,
    blank_too_small,
    chain_misfit,
    grit_step,
    lift_heavy,
    mass_off_volume,
    metal_near_boiling,
    mould_heat,
    noise_through,
    noise_unprotected,
    plate_measured_thin,
    plate_under_class,
    pour_below_liquidus,
    pour_superheat,
    speed_outside_band,
    speed_over_rating,
    thread_shallow,
    vibration_limit,
    wet_film_off,
)

RULES: tuple[Rule, ...] = (
    pour_below_liquidus.RULE,
    pour_superheat.RULE,
    metal_near_boiling.RULE,
    mould_heat.RULE,
    mass_off_volume.RULE,
    speed_over_rating.RULE,
    speed_outside_band.RULE,
    grit_step.RULE,
    noise_unprotected.RULE,
    noise_through.RULE,
    vibration_limit.RULE,
    lift_heavy.RULE,
    air_over_limit.RULE,
    thread_shallow.RULE,
    chain_misfit.RULE,
    blank_too_small.RULE,
    plate_under_class.RULE,
    plate_measured_thin.RULE,
    wet_film_off.RULE,
)
