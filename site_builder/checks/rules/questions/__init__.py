"""Questions: what the notebook does not tell yet, asked while there is still somebody to ask."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.questions import (
    care,
    ends_and_troubles,
    keeping,
    looking,
    shop,
    stuff,
    time_and_feel,
    work,
)

RULES: tuple[Rule, ...] = (
    *rules_in(work),
    *rules_in(care),
    *rules_in(time_and_feel),
    *rules_in(looking),
    *rules_in(ends_and_troubles),
    *rules_in(keeping),
    *rules_in(stuff),
    *rules_in(shop),
)
