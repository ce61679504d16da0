"""Rules on the trade's arithmetic: what two numbers of the shop cannot both be, and what a third one warns of."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.trade import (
    coats,
    exposures,
    fastenings,
    grinding,
    pouring,
)

RULES: tuple[Rule, ...] = (
    *rules_in(pouring),
    *rules_in(grinding),
    *rules_in(exposures),
    *rules_in(fastenings),
    *rules_in(coats),
)
