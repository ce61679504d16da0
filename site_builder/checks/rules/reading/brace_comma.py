from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="brace-comma",
    level=Level.ERROR,
    summary="A comma between braces that ends a value.",
    reason="Everything after the comma would silently be taken for something else, tolerances among it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {length: aim 30 mm; min 29 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {length: {is: aim 30 mm, ▸min 29 mm}}
""",
)
