from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="kind-unknown",
    level=Level.ERROR,
    summary="A file that does not say in its first line what it is.",
    reason="A file found alone in thirty years still has to explain itself.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
▸proceedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
)
