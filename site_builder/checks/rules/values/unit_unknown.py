from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="unit-unknown",
    level=Level.ERROR,
    summary="A unit that nobody listed and the shop does not count in.",
    reason=(
        "A unit that only one person knows dies with that person. What the shop counts in stands under `words`, "
        "with what it means."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    materials: {material: belt-grease, amount: 3 g}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    materials: {material: belt-grease, amount: ▸3 dollops}
""",
)
