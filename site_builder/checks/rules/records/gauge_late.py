from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.model.small import Calibration
from site_builder.notebook.spans import day_after, longest_span
from site_builder.notebook.tree import Text
from site_builder.quantity import Every, Quantity, Value
from site_builder.skills.readings import cells_of, limit_of


def check(analysis: Analysis) -> Iterator[Found]:
    tools = analysis.notebook.tools
    for entry, place in standing(analysis, Measurement):
        if entry.date is None:
            continue
        for name in entry.with_ or _gauges_of_limit(analysis, entry, place):
            gauge = tools.get(name)
            last = None if gauge is None or gauge.calibration is None else good_until(gauge.calibration)
            if gauge is not None and last is not None and entry.date.value.first > last:
                yield Found(
                    name.at if entry.with_ else entry.date.at,
                    f"On {entry.date} the {gauge.title.lower()} was out of calibration: it was good until "
                    f"{last.isoformat()}.",
                    "Have the gauge calibrated and measure again. " + MEND.format(entry.number),
                    place.owner_id,
                )


def good_until(calibration: Calibration) -> date | None:
    """The last day on which a gauge may be trusted; None where its rhythm is no span of time."""
    if calibration.date is None or calibration.when is None:
        return None
    ends = []
    for item in calibration.when.value.items:
        if isinstance(item, Every) and isinstance(item.amount, Quantity):
            span = longest_span(Value(item.amount))
            if span is not None:
                ends.append(day_after(calibration.date.value.last, span))
    return min(ends, default=None)


def _gauges_of_limit(analysis: Analysis, entry: Measurement, place: Place) -> tuple[Text, ...]:
    """Where the entry names no gauge, the one that the limit is measured with."""
    limit = limit_of(analysis.references, entry, place)
    if limit is None:
        return ()
    limits = (*limit.limits, *(cell for cell, _ in cells_of(limit)))
    named = {name for one in limits for name in one.with_}
    return tuple(named) if len(named) == 1 else ()


RULE = Rule(
    code="gauge-late",
    level=Level.ERROR,
    summary="Measured with a gauge that was out of calibration.",
    reason="What such a gauge says may be true, but nobody can know. The reading is no evidence for "
    "anything.",
    passes="""\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
calibration: {when: every 12 mo, date: 2025-12-05}
=== skills/records/measurements.yml
---
measurement: 1
date: 2026-03-02
with: height-gauge
readings: 42.1 mm
""",
    fails="""\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
calibration: {when: every 12 mo, date: 2024-12-05}
=== skills/records/measurements.yml
---
measurement: 1
date: 2026-03-02
with: ▸height-gauge
readings: 42.1 mm
""",
    check=check,
)
