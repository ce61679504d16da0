from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="file-unreadable",
    level=Level.ERROR,
    summary="A file that cannot be opened, or that is none.",
    reason="What cannot be read is missing from the handbook without anybody noticing.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
    fails="""\
=== ▸tools/machines/grinder.yml folder
""",
)
