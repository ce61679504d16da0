from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import doing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.procedure import Work


def check(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        work = place.parent.entry if place.parent is not None else None
        if loop.times is None or loop.until or "until" in loop.asked or not isinstance(work, Work):
            continue
        # A step that measures, judges or has its own end says by that when the round is over.
        if not (work.until or work.limits or work.feel or work.checks or "until" in work.asked):
            yield Found(
                loop.at, f"How do you know that it was done often enough: {doing(place)}?",
                "Add `until:` to `repeat` with the sign by which it is over.", place.owner_id,
            )


RULE = Rule(
    code="ended-asked",
    level=Level.QUESTION,
    summary="A round that is gone again and again without a word on when it is enough.",
    reason="A loop ends by a sign. Without it one hand stops a round too early, another a round too late.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    repeat: {until: The grey skin is gone., times: about 2; max 5}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    repeat: ▸about 2; max 5
""",
    check=check,
)
