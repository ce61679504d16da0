from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, at_home
from site_builder.notebook.finding import Level

RULE = Rule(
    code="beginners-asked",
    level=Level.QUESTION,
    summary="A procedure without a single key point.",
    reason="The steps say what to do. The points say what makes or breaks it, and they are what a teacher is"
    " for.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
points: Keep the weight over the middle.
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "points",
        question="What do beginners get wrong: {}?",
        fix="Add `points:` to the step where it happens, each with its `because`.",
        worth=at_home,
    ),
)
