from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, at_home
from site_builder.notebook.finding import Level

RULE = Rule(
    code="ready-asked",
    level=Level.QUESTION,
    summary="A procedure that begins without a look.",
    reason="Half of what goes wrong was wrong before the first move, and anybody who knew where to look "
    "could have seen it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
ready: The guard is closed.
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "ready",
        question="What do you look at before the first move: {}?",
        fix="Add `ready:` with a line for each thing that must be true first.",
        worth=at_home,
    ),
)
