from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.untold import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="skill-unproved",
    level=Level.QUESTION,
    summary="A skill without proof.",
    reason="“He can do it” is an opinion. So many pieces, of which so many must be good, is something "
    "the learner can work towards and nobody can quarrel with.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
proof: {pieces: 30, share: min 90 %}
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
title: Filing
""",
    check=asks_for(
        "proof",
        "What must stand in the records before somebody does {} alone: how many pieces, how many good?",
        "Add `proof:` with `pieces` and `share`.",
    ),
)
