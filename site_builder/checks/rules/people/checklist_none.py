from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.untold import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="checklist-none",
    level=Level.QUESTION,
    summary="A skill without a checklist.",
    reason="The list is what the learner is shown, tries and is signed for, one thing after the other. "
    "Without it each teacher signs for something else.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist: Files along the parting line without a flat.
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
title: Filing
""",
    check=asks_for(
        "checklist", "What does one show, one thing after the other, before {} is signed?",
        "Add `checklist:` with a line for each thing that is shown.",
    ),
)
