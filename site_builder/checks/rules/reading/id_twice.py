from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="id-twice",
    level=Level.ERROR,
    summary="Two things of one kind with the same id.",
    reason="Whoever points at the id could mean either; the second of the two is not read.",
    passes="""\
=== tools/machines/grinder.yml
machine: grinder
title: Belt grinder
=== procedures/shared/grinder.yml
procedure: grinder
title: Look after the grinder
steps:
  - do: Brush it off.
""",
    fails="""\
=== tools/hand/grinder.yml
hand-tool: grinder
title: Angle grinder
=== tools/machines/grinder.yml
machine: ▸grinder
title: Belt grinder
""",
)
