"""Questions: what the notebook does not tell yet, asked while there is still somebody to ask."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions import (
    because_asked,
    before_asked,
    beginners_asked,
    feel_asked,
    good_asked,
    hazards_asked,
    materials_asked,
    part_asked,
    ready_asked,
    settings_asked,
    stand_asked,
    time_asked,
    tools_asked,
    troubles_asked,
    yield_asked,
)

RULES: tuple[Rule, ...] = (
    because_asked.RULE,
    part_asked.RULE,
    before_asked.RULE,
    tools_asked.RULE,
    materials_asked.RULE,
    ready_asked.RULE,
    settings_asked.RULE,
    good_asked.RULE,
    feel_asked.RULE,
    beginners_asked.RULE,
    hazards_asked.RULE,
    time_asked.RULE,
    troubles_asked.RULE,
    yield_asked.RULE,
    stand_asked.RULE,
)
