from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for spots in (analysis.index.plain, analysis.index.texts):
        for spot in spots:
            if spot.key == "questions":
                yield Found(
                    spot.text.at, " ".join(spot.text.split()),
                    "Write the answer where it belongs, and take the question out.", spot.place.owner_id,
                )


RULE = Rule(
    code="question-noted",
    level=Level.QUESTION,
    summary="A question that somebody has written down.",
    reason="Somebody stood at the bench, did not know, and wrote it down so that it would be asked.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
questions:
  - ▸How soon must it be filled before the sole stains?
""",
    check=check,
)
