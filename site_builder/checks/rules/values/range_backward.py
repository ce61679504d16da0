from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="range-backward",
    level=Level.ERROR,
    summary="A range or a pair of limits between which nothing lies.",
    reason="One of the two figures is wrong, and nobody can say which.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    conditions: {room temperature: 12..30 °C}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    conditions: {room temperature: ▸30..12 °C}
""",
)
