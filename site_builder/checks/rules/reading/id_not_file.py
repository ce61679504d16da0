from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="id-not-file",
    level=Level.ERROR,
    summary="A file that is called otherwise than the thing in it.",
    reason="One looks for a thing by its name; two names lead to two versions of it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: ▸grind-the-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
)
