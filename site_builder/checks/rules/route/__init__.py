"""Rules on the route of the work: orders, ways back, ends and loops, parts, and what is chosen on the way."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.route import (
    ends,
    order,
    parts,
    reached,
    variants_known,
    variants_named,
)

RULES: tuple[Rule, ...] = (
    *rules_in(order),
    *rules_in(parts),
    *rules_in(reached),
    *rules_in(ends),
    *rules_in(variants_named),
    *rules_in(variants_known),
)
