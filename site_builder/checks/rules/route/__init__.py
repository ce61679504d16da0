"""Rules on the route of the work: orders, ways back, ends and loops, parts, and what is chosen on the way."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.route import (
    after_unsure,
    clock_alone,
    clock_as_sign,
    loop_endless,
    order_circle,
    part_no_route,
    part_none,
    part_unused,
    procedure_unreached,
    route_circle,
    route_none,
    split_over,
    step_order_circle,
    step_unreached,
    use_circle,
    variant_idle,
    variant_late,
    variant_two_hits,
    variant_unknown,
    wins_none,
)

RULES: tuple[Rule, ...] = (
    order_circle.RULE,
    after_unsure.RULE,
    use_circle.RULE,
    procedure_unreached.RULE,
    part_no_route.RULE,
    part_none.RULE,
    part_unused.RULE,
    step_order_circle.RULE,
    step_unreached.RULE,
    route_circle.RULE,
    route_none.RULE,
    split_over.RULE,
    loop_endless.RULE,
    wins_none.RULE,
    clock_alone.RULE,
    clock_as_sign.RULE,
    variant_unknown.RULE,
    variant_two_hits.RULE,
    variant_late.RULE,
    variant_idle.RULE,
)
