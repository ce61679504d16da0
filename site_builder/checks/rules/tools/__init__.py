"""Rules on tools and materials: what is due, what is stale, what does not fit together, what nothing uses."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.tools import (
    due,
    materials,
)

RULES: tuple[Rule, ...] = (
    *rules_in(materials),
    *rules_in(due),
)
