"""Rules on what can hurt: hazards, prohibitions, protection, and what is done after an accident."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.harm import (
    explained,
    guarded,
)

RULES: tuple[Rule, ...] = (
    *rules_in(guarded),
    *rules_in(explained),
)
