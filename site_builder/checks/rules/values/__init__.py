"""Rules on values: how they are written, what they lean on, and whether they can all be kept."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.values import (
    doubtful,
    impossible_together,
    named,
    notation,
    past_bearing,
    rows,
    unanswered,
    uncertain,
    units,
    untold,
)

RULES: tuple[Rule, ...] = (
    *rules_in(units),
    *rules_in(notation),
    *rules_in(named),
    *rules_in(impossible_together),
    *rules_in(rows),
    *rules_in(past_bearing),
    *rules_in(doubtful),
    *rules_in(untold),
    *rules_in(uncertain),
    *rules_in(unanswered),
)
