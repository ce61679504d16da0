from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="troubles-asked",
    level=Level.QUESTION,
    summary="A procedure in which nothing ever goes wrong.",
    reason="Anybody can follow the steps while all goes well. What the master does when it does not is the "
    "better half of what he knows.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
troubles: {sign: It rocks., cause: The belt is worn., do: Change the belt., then: again}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "troubles",
        question="What goes wrong, how does one see it, and what do you do then: {}?",
        fix="Add `troubles:`, each with `sign`, `cause`, `do` and `then`.",
    ),
)
