from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="yaml-broken",
    level=Level.ERROR,
    summary="A line that YAML cannot read.",
    reason="A file that breaks off is half a procedure. Nothing in it is used until the line is mended.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Note - wear gloves.
  - do: >
      Note: sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Note▸: wear gloves.
""",
)
