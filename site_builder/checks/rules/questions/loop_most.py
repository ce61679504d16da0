from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import doing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Limits


def check(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        if "times" in loop.asked or any(end.count for end in loop.until):
            continue
        if loop.times is None and not loop.until:
            continue  # that it never ends is more than a question
        if loop.times is None or _is_open(loop.times):
            yield Found(
                loop.at if loop.times is None else loop.times.at,
                f"How often at most does one go round: {doing(place)}?",
                "Write `times:` with both, as `about 2; max 5`.", place.owner_id,
            )


def _is_open(times: Written) -> bool:
    """Whether a count has a usual or a least, but no most."""
    what = times.value.what
    return isinstance(what, Limits) and what.get("max") is None and what.get("under") is None


RULE = Rule(
    code="loop-most",
    level=Level.QUESTION,
    summary="A round that does not say how often at most.",
    reason="What is not good after so many rounds does not get good by another. The number says when to stop"
    " and ask.",
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
    repeat: ▸{until: The grey skin is gone.}
  - do: Sweep it along the fine belt.
    repeat: {until: It shines., times: ▸about 2}
""",
    check=check,
)
