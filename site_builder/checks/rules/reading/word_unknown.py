from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="word-unknown",
    level=Level.ERROR,
    summary="A word that is none of those that may stand here.",
    reason="The handbook draws and sorts by these words; an unknown one would drop out.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards: {hazard: abrasion, word: warning}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards: {hazard: abrasion, word: ▸careful}
""",
)
