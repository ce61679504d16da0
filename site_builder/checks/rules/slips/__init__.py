"""Slips of the pen that can be read: a thing told twice, a step with nothing in it, a name a letter off."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.slips import (
    finds_apart,
    id_again,
    lead_near,
    name_near,
    refuses_itself,
    repeat_ahead,
    row_left_out,
    step_empty,
    told_twice,
)

RULES: tuple[Rule, ...] = (
    id_again.RULE,
    step_empty.RULE,
    repeat_ahead.RULE,
    refuses_itself.RULE,
    finds_apart.RULE,
    row_left_out.RULE,
    lead_near.RULE,
    name_near.RULE,
    told_twice.RULE,
)
