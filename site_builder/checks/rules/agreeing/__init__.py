"""Things written in two places that must agree, and do not."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing import (
    calendar_shut,
    due_closed,
    learning_over_hours,
    revisions_backward,
    signed_absent,
    signed_unborn,
    yield_over_all,
)

RULES: tuple[Rule, ...] = (
    calendar_shut.RULE,
    due_closed.RULE,
    learning_over_hours.RULE,
    revisions_backward.RULE,
    signed_absent.RULE,
    signed_unborn.RULE,
    yield_over_all.RULE,
)
