from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="aim-outside",
    level=Level.ERROR,
    summary="One aims at what is refused.",
    reason="Whoever hits the aim makes scrap. Either the aim or the limit is a slip of the pen.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {height of the edge: aim 3 mm; max 4 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits: {height of the edge: ▸aim 5 mm; max 4 mm}
""",
)
