from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="because-asked",
    level=Level.QUESTION,
    summary="A procedure without its reason.",
    reason="Who knows why a thing is done sees when it was not done well enough, and also when it need not "
    "be done any longer.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
because: A hollow sole lifts the filler.
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "because",
        question="Why is it done, and what happens if it is left out: {}?",
        fix="Add `because:` with the reason.",
        whole=True,
    ),
)
