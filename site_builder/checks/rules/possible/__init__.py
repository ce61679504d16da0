"""Figures and days that cannot be, whatever else the notebook says."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.possible import (
    day_ahead,
    figure_doubtful,
    figure_impossible,
    life_backward,
    life_doubtful,
)

RULES: tuple[Rule, ...] = (
    day_ahead.RULE,
    figure_doubtful.RULE,
    figure_impossible.RULE,
    life_backward.RULE,
    life_doubtful.RULE,
)
