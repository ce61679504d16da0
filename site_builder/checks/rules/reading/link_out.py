from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="link-out",
    level=Level.ERROR,
    summary="A link that leads out of the notebook.",
    reason="When the notebook is copied to a stick, what lies outside stays behind.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== ▸tools/machines/belt-grinder.yml link to ../../../elsewhere/belt-grinder.yml
""",
)
