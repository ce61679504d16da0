from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="names-wanted",
    level=Level.ERROR,
    summary="A text or a list where names with values belong.",
    reason="A value without a name cannot be pointed to, checked or measured.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      flatness: max 0.1 mm
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: ▸max 0.1 mm
""",
)
