"""Things written in two places that must agree, and do not."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.agreeing import (
    amounts,
    days_and_choices,
    gauges_and_fits,
    hours_and_mixes,
    pins_and_lessons,
    plans_and_signers,
)

RULES: tuple[Rule, ...] = (
    *rules_in(days_and_choices),
    *rules_in(gauges_and_fits),
    *rules_in(hours_and_mixes),
    *rules_in(pins_and_lessons),
    *rules_in(plans_and_signers),
    *rules_in(amounts),
)
