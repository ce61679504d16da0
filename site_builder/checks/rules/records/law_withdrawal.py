from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-withdrawal",
    level=Level.ERROR,
    summary="A sign-off is taken back or corrected that does not stand, or without a reason.",
    reason="A withdrawal says that somebody was wrong. It names the one entry that is meant, and why.",
    passes="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
---
sign-off: 2
who: edda
date: 2026-06-20
withdraws: 1
because: He took the file that had been on steel.
""",
    fails="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
---
sign-off: 2
who: edda
date: 2026-06-20
withdraws: ▸1
---
sign-off: 3
who: edda
date: 2026-06-21
withdraws: ▸7
because: He took the file that had been on steel.
""",
    check=against(Article.TAKES_BACK),
)
