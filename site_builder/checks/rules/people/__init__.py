"""Rules on people."""

from __future__ import annotations

from site_builder.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
