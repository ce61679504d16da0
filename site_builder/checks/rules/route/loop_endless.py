from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import bounds, references


def check(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        if loop.until or not loop.asked.isdisjoint({"until", "times"}) or (loop.times and not _is_open(loop.times)):
            continue
        yield Found(
            loop.times.at if loop.times else loop.at, "Nothing says when it has gone round often enough.",
            "Add `until:` with the sign that it is done, and `times:` with the most, as `about 2; max 5`.",
            place.owner_id,
        )


def _is_open(times: Written) -> bool:
    """Whether a count has figures, and none at its upper side."""
    found = bounds(times.value)
    if found is None or references(times.value):
        return False
    return found.high is None and found.aim_high is None and not found.high_untold


RULE = Rule(
    code="loop-endless",
    level=Level.WARNING,
    summary="A loop with no end.",
    reason="Who is told to do it again and not until when goes on until the piece is thin, or stops when the "
    "arm is tired.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    repeat: {until: It does not rock., times: min 2}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    repeat: {times: ▸min 2}
""",
    check=check,
)
