"""Rules on who does the work: skills and their holders, ages, papers, hands, and the people named."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.people import (
    hands_at_work,
    papers_and_ages,
    skills_held,
    unsaid,
)

RULES: tuple[Rule, ...] = (
    *rules_in(papers_and_ages),
    *rules_in(skills_held),
    *rules_in(hands_at_work),
    *rules_in(unsaid),
)
