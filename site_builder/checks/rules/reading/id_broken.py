from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="id-broken",
    level=Level.ERROR,
    summary="An id with capital letters, blanks or other signs.",
    reason="Ids become names of files and addresses of pages, and these must be the same on every machine.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: break-edge, do: Draw the edge over the fine belt.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: ▸Break edge, do: Draw the edge over the fine belt.}
""",
)
