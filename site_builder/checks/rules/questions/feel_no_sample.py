from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import judged_by_feel
from site_builder.notebook.finding import Found, Level

_SKIN = re.compile(r"\b(finger|thumb|nail|palm|hand|skin|lip)", re.IGNORECASE)
"""Where the skin meets the piece; what an arm or a wrist feels is in the work and not in a piece."""


def check(analysis: Analysis) -> Iterator[Found]:
    feels = list(judged_by_feel(analysis))
    sampled = {place.owner_id for feel, place in feels if feel.with_ or "with" in feel.asked}
    for feel, place in feels:
        if feel.sense == "touch" and feel.good and _SKIN.search(feel.where or "") and place.owner_id not in sampled:
            sampled.add(place.owner_id)  # asked once a procedure
            yield Found(
                feel.at, f"Is there a good piece and a bad one on which a hand can learn it: {quoted(feel.good)}?",
                "Add `with:` with the ids of reference pieces under `tools/samples/`.", place.owner_id,
            )


RULE = Rule(
    code="feel-no-sample",
    level=Level.QUESTION,
    summary="A touch that is to be learned without a piece to learn it on.",
    reason="Words for a feel mean something only to who has felt it. A good piece and a bad one in a drawer "
    "outlast every teacher.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    feel: {sense: touch, where: the thumb, good: It runs over like a worn coin., with: edge-good}
=== tools/samples/edge-good.yml
sample: edge-good
title: Good edge
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    feel: ▸{sense: touch, where: the thumb, good: It runs over like a worn coin.}
""",
    check=check,
)
