from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.hands_count import least_hands
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hands


def check(analysis: Analysis) -> Iterator[Found]:
    for hands, place in analysis.index.of(Hands):
        wanted = least_hands(hands)
        if wanted > 1 and not hands.missing and "missing" not in hands.asked:
            yield Found(
                hands.at, f"This takes {wanted} at once. What is done when one of them is not there?",
                "Add `missing:` with what to do instead, as `{do: Do not pour., then: stop}`.",
                place.owner_id,
            )


RULE = Rule(
    code="hands-missing",
    level=Level.QUESTION,
    summary="Several hands, and no word on what to do when one is not there.",
    reason="On that day somebody tries it alone. Better that the page has said beforehand whether one may.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps:
  - do: Pour it.
    hands:
      count: 2
      missing: {do: Do not pour., then: stop}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps:
  - do: Pour it.
    hands: ▸2
""",
    check=check,
)
