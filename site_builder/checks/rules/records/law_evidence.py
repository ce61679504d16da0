from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-evidence",
    level=Level.ERROR,
    summary="A sign-off rests on an entry that is not there, or is not of this learner and this skill.",
    reason="Evidence is named so that anybody can look it up. What leads to nothing, or to the work of "
    "another, shows nothing.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
=== skills/records/practice.yml
---
practice: 1
who: josk
date: 2026-06-18
procedure: file-arm
pieces: 30
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
evidence: practice 1
""",
    fails="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-18
procedure: file-arm
pieces: 30
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
evidence: [▸practice 1, ▸practice 2]
""",
    check=against(Article.EVIDENCE),
)
