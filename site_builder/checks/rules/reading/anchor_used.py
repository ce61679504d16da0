from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="anchor-used",
    level=Level.ERROR,
    summary="An anchor (`&`), an alias (`*`) or a tag (`!`) of YAML.",
    reason="What stands here must be readable here, without looking for a name given elsewhere.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
hazards: The belt takes the skin off a finger!
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
  - do: ▸!Hold it by the rim.
""",
)
