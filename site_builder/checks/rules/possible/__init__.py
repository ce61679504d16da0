"""Figures and days that cannot be, whatever else the notebook says."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.possible import (
    figures_and_days,
)

RULES: tuple[Rule, ...] = (
    *rules_in(figures_and_days),
)
