from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="key-unknown",
    level=Level.ERROR,
    summary="A key that the format does not have.",
    reason="A slip of the pen must never swallow a tolerance: a key nobody reads is a fact nobody sees.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {flatness: max 0.1 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    ▸limitz: {flatness: max 0.1 mm}
""",
)
