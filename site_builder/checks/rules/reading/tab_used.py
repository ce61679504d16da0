from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="tab-used",
    level=Level.ERROR,
    summary="A tab.",
    reason=(
        "A tab is as wide as each editor likes, so what looks like one level to you is another to "
        "the next reader."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:▸\tabrasion
""",
)
