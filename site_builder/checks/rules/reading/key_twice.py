from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="key-twice",
    level=Level.ERROR,
    summary="The same key twice in one place.",
    reason="Only one of the two would be read, and nobody would see which.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
hazards:
  - hazard: abrasion
  - hazard: hot metal
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
hazards: abrasion
▸hazards: hot metal
""",
)
