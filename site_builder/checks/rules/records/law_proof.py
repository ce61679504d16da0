from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-proof",
    level=Level.ERROR,
    summary="The proof that a skill asks for does not stand in the books.",
    reason="How many pieces, how many of them good, how sure one wants to be: the skill says so itself. "
    "Who signs without it writes down why, and the reason stands on every page.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
proof: {pieces: 30, share: min 90 %}
=== skills/records/practice.yml
---
practice: 1
who: josk
date: 2026-06-18
procedure: file-arm
pieces: 30
rework: 3
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
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
proof: {pieces: 30, share: min 90 %}
=== skills/records/practice.yml
---
practice: 1
who: josk
date: 2026-06-18
procedure: file-arm
pieces: 30
rework: 4
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: ▸alone
evidence: practice 1
""",
    check=against(Article.PROOF),
)
