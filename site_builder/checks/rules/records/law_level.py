from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-level",
    level=Level.ERROR,
    summary="A level was signed before the items of the checklist that it rests on.",
    reason="Nobody works out of sight of the teacher who has not worked beside him, and nobody alone "
    "before each item of the checklist is signed. The list is there so that nothing is forgotten "
    "with those one likes.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
  - {id: along, show: Files without a flat.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
items: card
---
sign-off: 2
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
items: along
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
  - {id: along, show: Files without a flat.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: ▸alone
items: card
""",
    check=against(Article.LEVEL),
)
