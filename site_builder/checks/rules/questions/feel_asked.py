from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, at_home, machine_of
from site_builder.notebook.finding import Level
from site_builder.notebook.told import Told


def _by_hand(analysis: Analysis, told: Told) -> bool:
    """Done here without a machine, and judged somehow, though neither by a gauge nor by feel."""
    return at_home(analysis, told) and told.knows("checks", "until") and machine_of(analysis, told) is None


RULE = Rule(
    code="feel-asked",
    level=Level.QUESTION,
    summary="Work of the hand that is only looked at.",
    reason="What the hand and the ear know is the first thing to be lost, because nobody ever had to say it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
checks: {good: No grey is left., when: each piece}
feel: {good: It runs over like a worn coin., bad: It catches.}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
checks: {good: No grey is left., when: each piece}
steps: Sweep it along the belt.
""",
    check=asks_for(
        "feel", "limits",
        question="What does it feel or sound like when it goes well, and when it does not: {}?",
        fix="Add `feel:` with `sense`, `good` and `bad`.",
        worth=_by_hand,
    ),
)
