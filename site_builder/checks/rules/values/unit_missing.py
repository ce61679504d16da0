from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="unit-missing",
    level=Level.ERROR,
    summary="A figure without its unit.",
    reason="0.1 mm and 0.1 in are two different feet, and a bare degree may be °C or °F: two different accidents.",
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
    limits: {flatness of the sole: max ▸0.1}
""",
)
