from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="good-asked",
    level=Level.QUESTION,
    summary="A procedure that never says when the work is good.",
    reason="Everybody stops when it is good. Without a word on what good is, each of them stops somewhere "
    "else.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
until: The grey casting skin is gone all over.
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "limits", "feel", "checks", "until", "finds", "repeat",
        question="How do you know that it is good: {}?",
        fix="Add `limits:` for what is measured, `feel:` or `checks:` for what is judged, `until:` for its end.",
    ),
)
