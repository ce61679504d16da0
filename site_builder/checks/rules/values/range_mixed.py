from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="range-mixed",
    level=Level.ERROR,
    summary="Two ends, or two clauses, in units that cannot be compared or are easily confused.",
    reason="Between a length and a mass lies nothing, and half a range in inches is soon read as millimetres.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {height of the rest: 5..6 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {height of the rest: ▸5 mm..3 in}
""",
)
