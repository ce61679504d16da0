"""Rules on what can hurt: hazards, prohibitions, protection, and what is done after an accident."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.harm import (
    accident_unsaid,
    harm_unsaid,
    hazard_unavoided,
    hazard_unprotected,
    hazard_unworded,
    machine_harmless,
    never_unexplained,
    notice_wears,
    protection_unlisted,
    protection_unused,
    tasted_danger,
)

RULES: tuple[Rule, ...] = (
    notice_wears.RULE,
    protection_unlisted.RULE,
    hazard_unavoided.RULE,
    hazard_unprotected.RULE,
    machine_harmless.RULE,
    protection_unused.RULE,
    hazard_unworded.RULE,
    harm_unsaid.RULE,
    never_unexplained.RULE,
    accident_unsaid.RULE,
    tasted_danger.RULE,
)
