from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="text-cut",
    level=Level.WARNING,
    summary="Text that is lost because a comment begins in it.",
    reason="A `#` after a blank begins a comment; what was meant as a number is not read.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along belt number 80. # the coarse one
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along belt ▸#80.
""",
)
