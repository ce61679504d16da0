from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.small import Time
from site_builder.quantity import Ask, Some


def check(analysis: Analysis) -> Iterator[Found]:
    for time, place in analysis.index.of(Time):
        told = [one for one in (time.each, time.load, time.lot, time.setup) if one is not None]
        figures = [one for one in told if not isinstance(one.value.what, Ask | Some)]
        if figures and not (time.source or "source" in time.asked or _within_a_timed_whole(time, place)):
            yield Found(
                figures[0].at, f"Nothing says how `{figures[0]}` was found.",
                "Add `source:`, as `timed over 40 pieces`, `memory` or `told by` somebody.", place.owner_id,
            )


def _within_a_timed_whole(time: Time, place: Place) -> bool:
    """Whether the procedure around it says how its times were found."""
    own = place.procedure
    return own is not None and any(whole.source for whole in own.time if whole is not time)


RULE = Rule(
    code="time-unbased",
    level=Level.WARNING,
    summary="A work time, and nothing on how it was found.",
    reason=(
        "A time that was measured over forty pieces and one that was guessed at a desk look the same; "
        "the season is planned on both."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
time: {setup: 20 min, each: about 5 min, source: timed over 40 pieces}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
time: {setup: 20 min, each: ▸about 5 min}
""",
    check=check,
)
