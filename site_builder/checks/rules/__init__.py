"""The catalogue: every rule, in the order in which a writer would want to hear of them."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules import (
    agreeing,
    harm,
    people,
    possible,
    questions,
    reading,
    records,
    route,
    slips,
    tellings,
    texts,
    tools,
    trade,
    values,
)

RULES: tuple[Rule, ...] = (
    *reading.RULES, *slips.RULES, *values.RULES, *possible.RULES, *agreeing.RULES, *trade.RULES, *texts.RULES,
    *tellings.RULES,
    *route.RULES, *tools.RULES, *harm.RULES, *people.RULES, *records.RULES, *questions.RULES,
)
"""All rules. A code stands once."""

BY_CODE = {rule.code: rule for rule in RULES}
