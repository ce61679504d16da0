from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-says",
    level=Level.ERROR,
    summary="A sign-off does not say who has shown what, or names an item that is not on the checklist.",
    reason="An entry with a hole in it can be filled in afterwards by anybody. It names the learner, the "
    "skill, the day, and a level or the items that were shown.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
items: card
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
items: [card, ▸crad]
""",
    check=against(Article.SAYS),
)
