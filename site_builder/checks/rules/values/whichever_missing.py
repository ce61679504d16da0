from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="whichever-missing",
    level=Level.ERROR,
    summary="Two bounds, and nothing says which of them holds.",
    reason="Of two bounds one is met first. Where nothing says which of them holds, the reader picks the easier.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {depth of a pit: max 1 mm or 1/3 of wall whichever is less, wall: 4 ±0.4 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {depth of a pit: max 1 mm ▸or 1/3 of wall, wall: 4 ±0.4 mm}
""",
)
