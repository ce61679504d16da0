from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="value-broken",
    level=Level.ERROR,
    summary="A value that cannot be read.",
    reason="What the program cannot read, it cannot check, and the next reader will guess.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {flatness of the sole: max 0.1 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {flatness of the sole: ▸0.1 mm max}
""",
)
