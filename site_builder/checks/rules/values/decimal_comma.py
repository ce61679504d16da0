from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="decimal-comma",
    level=Level.ERROR,
    summary="A comma in a number.",
    reason="1,500 mm is a metre and a half in one country and a millimetre and a half in another.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings:
      depth of the pass: 0.2 mm
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings:
      depth of the pass: ▸0,2 mm
""",
)
