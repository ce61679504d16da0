from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="keys-wanted",
    level=Level.ERROR,
    summary="A text or a list where keys belong.",
    reason="This thing has no short form: each part of it must say what it is.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures:
      file: sole.jpg
      marks: {at: [0.5, 0.25], note: The hollow}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures:
      file: sole.jpg
      marks: ▸the hollow
""",
)
