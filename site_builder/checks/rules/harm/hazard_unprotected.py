from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.harm.protection import Worn, can_be_worn_against
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard

GRAVE = ("danger", "warning")


def check(analysis: Analysis) -> Iterator[Found]:
    worn = Worn(analysis)
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word not in GRAVE or hazard.wear or hazard.note or "wear" in hazard.asked:
            continue
        if hazard.avoid is not None and can_be_worn_against(hazard) and not worn.against(place):
            yield Found(
                hazard.at,
                f"“{hazard.hazard}” is marked {hazard.word}, and nobody who meets it wears anything.",
                "Add `wear:` with what protects; if nothing one could wear would help, say so in a `note:`.",
                place.owner_id,
            )


RULE = Rule(
    code="hazard-unprotected",
    level=Level.WARNING,
    summary="A grave hazard, and no protection at all in the whole of the work.",
    reason="Care is the first thing to go when one is tired; what is worn stays. Where nothing worn "
    "would help, the page must say so, or the next one thinks it was forgotten.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
hazards:
  - hazard: flying grit
    word: warning
    harm: It goes into the eye.
    avoid: Stand beside the belt, not behind it.
    wear: eye-shield
steps:
  - do: Sweep it along the belt.
=== tools/protection/eye-shield.yml
protection: eye-shield
title: Eye shield
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
hazards:
  - ▸hazard: flying grit
    word: warning
    harm: It goes into the eye.
    avoid: Stand beside the belt, not behind it.
steps:
  - do: Sweep it along the belt.
""",
    check=check,
)
