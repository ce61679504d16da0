"""Things written in two places that must agree, and do not."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing import (
    calendar_shut,
    chosen_crossed,
    conditions_crossed,
    due_closed,
    fit_misfit,
    gauge_out_of_range,
    gauge_range_short,
    grit_backward,
    heat_melts,
    learning_over_hours,
    metal_other,
    mix_off,
    names_crossed,
    remedy_sideless,
    revisions_backward,
    signed_absent,
    signed_unborn,
    stock_short,
    time_off_practice,
    whole_lighter,
    yield_over_all,
)

RULES: tuple[Rule, ...] = (
    calendar_shut.RULE,
    chosen_crossed.RULE,
    conditions_crossed.RULE,
    due_closed.RULE,
    fit_misfit.RULE,
    gauge_out_of_range.RULE,
    gauge_range_short.RULE,
    grit_backward.RULE,
    heat_melts.RULE,
    learning_over_hours.RULE,
    metal_other.RULE,
    mix_off.RULE,
    names_crossed.RULE,
    remedy_sideless.RULE,
    revisions_backward.RULE,
    signed_absent.RULE,
    signed_unborn.RULE,
    stock_short.RULE,
    time_off_practice.RULE,
    whole_lighter.RULE,
    yield_over_all.RULE,
)
