from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="rule-crashed",
    level=Level.ERROR,
    summary="A rule of the program failed.",
    reason=(
        "The fault is the program's, not the notebook's; all other rules have still been run. No "
        "notebook is known that brings it about."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="",
)
