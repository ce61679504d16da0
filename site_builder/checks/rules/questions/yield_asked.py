from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, on_its_own
from site_builder.notebook.finding import Level

RULE = Rule(
    code="yield-asked",
    level=Level.QUESTION,
    summary="A procedure that does not say how many pieces fail.",
    reason="So many more must be begun than are ordered, and only a number shows whether a change has "
    "helped.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
yield: {scrap: 1.5 %, rework: 4 %}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "yield_", "yield",
        question="Of a hundred pieces, how many are lost and how many must be done again: {}?",
        of_a_lot="How often does a lot fail, and what is lost then: {}?",
        fix="Add `yield:` with `scrap` and `rework`; `scrap: 0 %` is an answer too.",
        worth=on_its_own,
        whole=True,
    ),
)
