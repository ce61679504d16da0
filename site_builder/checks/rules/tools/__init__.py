"""Rules on tools and materials: what is due, what is stale, what does not fit together, what nothing uses."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.tools import (
    apart_together,
    composition_sum,
    gauge_overdue,
    material_stale,
    property_doubled,
    tool_unused,
    upkeep_overdue,
)

RULES: tuple[Rule, ...] = (
    apart_together.RULE,
    composition_sum.RULE,
    property_doubled.RULE,
    gauge_overdue.RULE,
    upkeep_overdue.RULE,
    material_stale.RULE,
    tool_unused.RULE,
)
