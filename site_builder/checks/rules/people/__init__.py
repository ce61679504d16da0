"""Rules on who does the work: skills and their holders, ages, papers, hands, and the people named."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.people import (
    age_unsaid,
    born_unsaid,
    checklist_none,
    hands_missing,
    hands_short,
    inspector_alone,
    item_nameless,
    leads_unknown,
    needs_circle,
    nobody_holds,
    one_holds,
    paper_lapsed,
    paper_lapsing,
    paper_unsaid,
    procedure_skillless,
    refresh_unsaid,
    skill_self,
    skill_uncovering,
    skill_unproved,
    teacher_none,
    too_young,
    who_unknown,
)

RULES: tuple[Rule, ...] = (
    who_unknown.RULE,
    too_young.RULE,
    paper_lapsed.RULE,
    paper_lapsing.RULE,
    paper_unsaid.RULE,
    skill_self.RULE,
    needs_circle.RULE,
    skill_uncovering.RULE,
    nobody_holds.RULE,
    one_holds.RULE,
    teacher_none.RULE,
    hands_short.RULE,
    leads_unknown.RULE,
    inspector_alone.RULE,
    procedure_skillless.RULE,
    hands_missing.RULE,
    checklist_none.RULE,
    item_nameless.RULE,
    skill_unproved.RULE,
    refresh_unsaid.RULE,
    age_unsaid.RULE,
    born_unsaid.RULE,
)
