from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="file-empty",
    level=Level.ERROR,
    summary="A file with nothing in it.",
    reason="It may be the rest of a page that was lost when it was saved.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== ▸procedures/foot/grind-foot.yml
# to be written
""",
)
