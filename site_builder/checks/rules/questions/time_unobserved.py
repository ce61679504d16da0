from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import subject
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.small import Time
from site_builder.quantity import Ask, as_said


def check(analysis: Analysis) -> Iterator[Found]:
    asked: set[str] = set()
    for time, place in analysis.index.of(Time):
        told = time.each or time.load or time.lot
        own = place.procedure
        if own is None or told is None or isinstance(told.value.what, Ask) or place.owner_id in asked or (
                "source" in time.asked):
            continue
        # What stands on a step is a share of what was taken for the whole.
        if place.parent is not None and place.parent.entry is not own and own.time:
            continue
        if time.source is None or time.source == "memory" or time.source.startswith("told by"):
            asked.add(place.owner_id)
            of = "" if time.each is not None else " a load" if time.load is not None else " a lot"
            yield Found(
                time.at,
                f"“{subject(place)}” is said to take {as_said(told.value)}{of}: has anybody ever timed it?",
                "Time a dozen pieces, and add `source: timed over 12 pieces` and `date`.", place.owner_id,
            )


RULE = Rule(
    code="time-unobserved",
    level=Level.QUESTION,
    summary="A time that somebody told, and nobody has taken.",
    reason="Everybody remembers the good days. A time taken over forty pieces is mostly longer than the one "
    "that is told.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
time: {each: about 5 min, source: timed over 40 pieces, date: 2026-03-02}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
time: ▸{each: about 5 min, source: told by edda}
""",
    check=check,
)
