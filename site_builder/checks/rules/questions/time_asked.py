from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="time-asked",
    level=Level.QUESTION,
    summary="A procedure that does not say how long it takes.",
    reason="Without times nobody can promise a day of delivery, and no newcomer knows how slow is too slow.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
time: {setup: 20 min, each: 5 min, source: timed over 40 pieces}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "time",
        question="How long does it take, to get ready and for each piece: {}?",
        fix="Add `time:` with `setup` and `each`, and under `source` how it was found.",
    ),
)
