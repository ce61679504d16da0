from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard


def check(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word is None and "word" not in hazard.asked:
            yield Found(
                hazard.at, f"How badly can “{hazard.hazard}” hurt somebody?",
                "Add `word:` with `danger` (it kills or maims), `warning` (it may), `caution` (it hurts and "
                "heals) or `notice` (it harms only the work).",
                place.owner_id,
            )


RULE = Rule(
    code="hazard-unworded",
    level=Level.QUESTION,
    summary="A hazard without its signal word.",
    reason="A scratched knuckle and a lost eye must not look alike on the page. The four words are those of "
    "ANSI Z535.6 and ISO 3864-2.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:
      - hazard: abrasion
        word: caution
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
        harm: The belt takes the skin off a finger.
        avoid: Hold the foot by its rim.
      - ▸the belt may tear
""",
    check=check,
)
