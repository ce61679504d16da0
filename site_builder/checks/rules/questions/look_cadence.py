from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import judged
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for look, place in judged(analysis):
        if look.when is None and "when" not in look.asked and (look.good or look.bad):
            yield Found(
                look.at, f"How often do you look: {quoted(look.good or look.bad[0])}?",
                "Add `when:`, as `each piece` or `every 10 pieces`.", place.owner_id,
            )


RULE = Rule(
    code="look-cadence",
    level=Level.QUESTION,
    summary="A check or a feel that does not say how often.",
    reason="What is looked at when somebody thinks of it is not looked at in the last week before the "
    "delivery.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    checks: {good: No grey is left., when: each piece}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    checks: ▸{good: No grey is left.}
""",
    check=check,
)
