from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import asks_of
from site_builder.notebook.finding import Level
from site_builder.notebook.model.things import Gauge

RULE = Rule(
    code="calibration-unsaid",
    level=Level.QUESTION,
    summary="A gauge that nobody has set against anything.",
    reason="A gauge that reads wrong passes bad work for years, and everybody trusts it.",
    passes="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
calibration: {when: every 12 mo, date: 2026-02-10}
""",
    fails="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: ▸Caliper
""",
    check=asks_of(
        (Gauge,), "calibration",
        question="How do you know that {} reads true, and how often is that looked at?",
        fix="Add `calibration:` with `when`, and the `date` of the last.",
    ),
)
