from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.things import Upkeep


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Step, Upkeep):
        for act, place in analysis.index.of(kind):
            if place.key in ("also", "upkeep") and act.when is None and "when" not in act.asked:
                yield Found(
                    act.at, f"How often: {quoted(act.do or act.use or place.owner_id)}?",
                    "Add `when:`, as `every 10 pieces`, `each week` or `last 10 s`.", place.owner_id,
                )


RULE = Rule(
    code="act-cadence",
    level=Level.QUESTION,
    summary="An act within a step, or a piece of upkeep, that does not say how often.",
    reason="Every so often is the part of the work that is forgotten first.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    also: {do: Touch the grease stick to the belt., when: every 10 pieces}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    also: ▸Touch the grease stick to the belt.
""",
    check=check,
)
