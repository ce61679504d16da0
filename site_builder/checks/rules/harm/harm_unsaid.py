from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard


def check(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.harm is None and "harm" not in hazard.asked:
            yield Found(
                hazard.at, f"What does “{hazard.hazard}” do to whoever meets it?",
                "Add `harm:` with what it does, as `It burns to the bone.`", place.owner_id,
            )


RULE = Rule(
    code="harm-unsaid",
    level=Level.QUESTION,
    summary="A hazard without the harm it does.",
    reason="Who knows what it does keeps his hands away; a bare name frightens nobody.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards: {hazard: abrasion, word: warning, harm: The belt takes the skin off a finger.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards: ▸{hazard: abrasion, word: warning, avoid: Hold the foot by its rim.}
""",
    check=check,
)
