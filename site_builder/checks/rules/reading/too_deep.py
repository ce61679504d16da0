from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="too-deep",
    level=Level.ERROR,
    summary="More levels inside one another than any notebook needs.",
    reason="No procedure is so deep; a bracket or the indentation has gone wrong.",
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
title: Grind the foot flat
note: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[▸[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]
steps:
  - do: Sweep it along the belt.
""",
)
