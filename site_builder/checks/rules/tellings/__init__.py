"""What was told: transcripts, moments, and whose voice may be played."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.tellings import (
    heard,
)

RULES: tuple[Rule, ...] = (
    *rules_in(heard),
)
