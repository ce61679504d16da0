from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="spot-broken",
    level=Level.ERROR,
    summary="A mark outside its picture.",
    reason="The mark would be drawn where nobody looks for it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.jpg, marks: {at: [0.5, 0.25], note: The hollow}}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.jpg, marks: {at: ▸[50, 25], note: The hollow}}
""",
)
