"""Rules on readings and gauges."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.model.small import Calibration
from site_builder.notebook.names import NamedValue
from site_builder.notebook.spans import day_after, longest_span
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Every, Quantity, Value, same_dimensions, unit_of_value
from site_builder.skills.entry_dates import MEND
from site_builder.skills.readings import Outcome, cells_of, limit_of


def reading_unit(analysis: Analysis) -> Iterator[Found]:
    for entry, place in standing(analysis, Measurement):
        limit = limit_of(analysis.references, entry, place)
        if limit is None:
            continue
        told = [case for case in analysis.judge.cases.of(limit) if not case.word]
        units = [(case.written, case.figures.unit) for case in told if case.figures is not None]
        if len(units) < len(told):  # a case has no figures, but its unit may stand there
            written = (cell for _, cell in cells_of(limit))
            units = [(str(cell), unit) for cell in written if (unit := unit_of_value(cell.value)) is not None]
        if not units:
            continue
        for reading in entry.readings:
            unit = unit_of_value(reading.value)
            asked = isinstance(reading.value.what, Ask)
            if not asked and not any(unit is not None and same_dimensions(one, unit) for _, one in units):
                yield Found(
                    reading.at, f"`{reading}` cannot be held against the limit, which is `{units[0][0]}`.",
                    MEND.format(entry.number), place.owner_id,
                )


READING_UNIT = Rule(
    "reading-unit", Level.ERROR, "A reading in a unit that does not fit its limit.",
    "A length cannot be compared with a mass. Either the unit is a slip of the pen, or the reading belongs to "
    "another limit.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness: max 0.1 mm}
=== skills/records/measurements.yml
---
measurement: 1
measured: grind-foot/flatness
✓ readings: [0.05 mm, 60 µm]
✗ readings: [0.05 mm, ▸60 g]
""", reading_unit,
)


def gauge_late(analysis: Analysis) -> Iterator[Found]:
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


GAUGE_LATE = Rule(
    "gauge-late", Level.ERROR, "Measured with a gauge that was out of calibration.",
    "What such a gauge says may be true, but nobody can know. The reading is no evidence for anything.",
    """\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
✓ calibration: {when: every 12 mo, date: 2025-12-05}
✗ calibration: {when: every 12 mo, date: 2024-12-05}
=== skills/records/measurements.yml
---
measurement: 1
date: 2026-03-02
with: ▸height-gauge
readings: 42.1 mm
""", gauge_late,
)


def reading_outside(analysis: Analysis) -> Iterator[Found]:
    judge = analysis.judge
    for limit, (entry, place) in _last_of_each(analysis).values():
        out = [one for one in entry.readings if judge.judge_reading(one, entry, limit).outcome is Outcome.OUTSIDE]
        if not out and judge.judge(entry, limit).outcome is Outcome.OUTSIDE:  # each fits a variant, and no one all
            out = [*entry.readings[:1]]
        for reading in out:
            written = " or ".join(dict.fromkeys(case.written for case in judge.cases_of(entry, limit)))
            yield Found(
                reading.at,
                f"{reading} is outside of “{limit.name}” ({written}), and no entry comes after it.",
                "Enter the reading taken after it was put right, with a `note` on what was done.",
                place.owner_id,
            )


def _last_of_each(analysis: Analysis) -> dict[tuple[int, str, str], tuple[NamedValue, tuple[Measurement, Place]]]:
    """Of each limit the last entry; whatever came before it has an entry after it."""
    found = {}
    about_gauges = analysis.law.evidence.about_gauges
    for entry, place in standing(analysis, Measurement):
        limit = limit_of(analysis.references, entry, place)
        if limit is not None and entry.number not in about_gauges:
            found[id(limit.step or limit.entry), limit.key, limit.name] = (limit, (entry, place))
    return found


READING_OUTSIDE = Rule(
    "reading-outside", Level.WARNING, "A reading outside its limit, and nothing in the book after it.",
    "Somebody saw that it was wrong and wrote it down. If the book ends there, nobody knows whether the pieces "
    "went out.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness: max 0.1 mm}
=== skills/records/measurements.yml
---
measurement: 1
measured: grind-foot/flatness
readings: [0.05 mm, ▸0.14 mm]
✓ ---
✓ measurement: 2
✓ measured: grind-foot/flatness
✓ readings: 0.10 mm
✓ note: Ground again.
""", reading_outside,
)
