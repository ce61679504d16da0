from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.possible.days import HAPPENED
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import DateSpan

_CLOCKS_APART = timedelta(days=1)
"""Further east it may be tomorrow already."""


def check(analysis: Analysis) -> Iterator[Found]:
    latest = analysis.today + _CLOCKS_APART
    for leaf, place, key in analysis.index.leaves:
        if not isinstance(leaf.value, DateSpan) or (type(place.entry).__name__, key) not in HAPPENED:
            continue
        if leaf.value.first > latest:
            yield Found(
                leaf.at, f"{leaf} lies ahead: today is {analysis.today.isoformat()}, and `{key}` tells what has been.",
                "Put right the day, above all its year; leave the line out until it has happened.", place.owner_id,
            )


RULE = Rule(
    code="day-ahead",
    level=Level.ERROR,
    summary="A day that lies ahead, for what has happened.",
    reason=(
        "A calibration of next year is never overdue, and a person born tomorrow is never old enough. Most often two "
        "digits of the year were swapped."
    ),
    passes="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
calibration: {when: every 12 mo, date: 2026-02-10}
""",
    fails="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
calibration: {when: every 12 mo, date: ▸2062-02-10}
""",
    check=check,
)
