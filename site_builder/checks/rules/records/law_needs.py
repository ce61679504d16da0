from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Level
from site_builder.skills.breach import Article

RULE = Rule(
    code="law-needs",
    level=Level.ERROR,
    summary="A skill was signed before what it needs first.",
    reason="Who pours metal must be able to stop the pot. The order in which things are learned has its "
    "reason, and it is safety more often than not.",
    passes="""\
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
=== skills/melting.yml
skill: melting
title: Melting
=== skills/casting.yml
skill: casting
title: Casting
needs: {skill: melting, level: beside}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: melting
level: beside
---
sign-off: 2
who: edda
date: 2026-06-19
learner: josk
skill: casting
level: beside
""",
    fails="""\
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
=== skills/melting.yml
skill: melting
title: Melting
=== skills/casting.yml
skill: casting
title: Casting
needs: {skill: melting, level: beside}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: melting
level: watches
---
sign-off: 2
who: edda
date: 2026-06-19
learner: ▸josk
skill: casting
level: beside
""",
    check=against(Article.NEEDS),
)
