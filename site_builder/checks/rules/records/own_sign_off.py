from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="own-sign-off",
    level=Level.ERROR,
    summary="Somebody signed for himself.",
    reason="A sign-off is the word of one who is entitled to give it, about another. Nobody signs for "
    "himself, not even the master.",
    passes="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
learner: josk
skill: filing
level: alone
""",
    fails="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ▸josk
learner: josk
skill: filing
level: alone
""",
    check=against(Article.SELF),
)
