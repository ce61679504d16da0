from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="text-wanted",
    level=Level.ERROR,
    summary="A list or keys where a text belongs.",
    reason="The place holds one text, and nobody can say which of several is meant.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title:
  ▸- Grind the foot flat
  - on the belt
steps:
  - do: Sweep it along the belt.
""",
)
