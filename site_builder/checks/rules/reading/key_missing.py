from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="key-missing",
    level=Level.ERROR,
    summary="One of the few keys that must stand is not there.",
    reason="Without it nobody can say what the thing is; all else may be left to be asked for.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
▸procedure: grind-foot
steps:
  - do: Sweep it along the belt.
""",
)
