"""Slips of the pen that can be read: a thing told twice, a step with nothing in it, a name a letter off."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.slips import (
    near_misses,
    said_twice,
)

RULES: tuple[Rule, ...] = (
    *rules_in(said_twice),
    *rules_in(near_misses),
)
