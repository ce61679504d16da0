from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="encoding-wrong",
    level=Level.ERROR,
    summary="A file that is not saved as UTF-8.",
    reason="Signs such as µ and ° would turn into others, and so might a value.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat at 20 °C
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml in latin-1
procedure: grind-foot
title: Grind the foot flat at 20 ▸°C
steps:
  - do: Sweep it along the belt.
""",
)
