from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard


def check(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.avoid is None and "avoid" not in hazard.asked:
            yield Found(
                hazard.at, f"“{hazard.hazard}” can hurt, but not a word says how to avoid it.",
                "Add `avoid:` with what keeps one whole.", place.owner_id,
            )


RULE = Rule(
    code="hazard-unavoided",
    level=Level.WARNING,
    summary="A hazard without a word on how to avoid it.",
    reason="A warning that only frightens helps nobody; the reader needs the way round.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:
      - hazard: abrasion
        word: warning
        harm: The belt takes the skin off a finger.
        avoid: Hold the foot by its rim.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:
      - ▸hazard: abrasion
        word: warning
        harm: The belt takes the skin off a finger.
""",
    check=check,
)
