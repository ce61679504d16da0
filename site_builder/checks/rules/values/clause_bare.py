from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="clause-bare",
    level=Level.ERROR,
    summary="A second figure without a word that says what it is.",
    reason="After `aim 3 mm` a bare `5 mm` may be the least or the most; one of the two ruins the piece.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {height of the edge: aim 3 mm; max 5 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {height of the edge: aim 3 mm; ▸5 mm}
""",
)
