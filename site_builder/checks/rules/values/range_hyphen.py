from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="range-hyphen",
    level=Level.ERROR,
    summary="A range written with a hyphen.",
    reason="`2-5 °C` may be two to five, or two less five. Two dots cannot be taken for a minus.",
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
    conditions: {room temperature: ▸12-30 °C}
""",
)
