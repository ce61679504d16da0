from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.due import next_due
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, tool in analysis.notebook.tools.items():
        calibration = tool.calibration
        last = None if calibration is None else next_due(calibration.date, calibration.when)
        if calibration is not None and calibration.date is not None and last is not None and last < analysis.today:
            yield Found(
                calibration.date.at, f"“{tool.title}” was good until {last.isoformat()}. Nobody knows whether it still "
                "reads true.",
                "Have it calibrated and write the new date; until then, measure with another.", id_,
            )


RULE = Rule(
    code="gauge-overdue",
    level=Level.WARNING,
    summary="A gauge whose calibration is past its date.",
    reason="A gauge that reads wrong looks like one that reads right. All that is measured with it from now on "
    "is doubtful.",
    passes="""\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
calibration: {when: every 12 mo, date: 2025-12-05}
""",
    fails="""\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
calibration: {when: every 12 mo, date: ▸2025-11-05}
""",
    check=check,
)
