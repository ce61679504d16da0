from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.skills.readings import Outcome, limit_of


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="reading-outside",
    level=Level.WARNING,
    summary="A reading outside its limit, and nothing in the book after it.",
    reason="Somebody saw that it was wrong and wrote it down. If the book ends there, nobody knows "
    "whether the pieces went out.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness: max 0.1 mm}
=== skills/records/measurements.yml
---
measurement: 1
measured: grind-foot/flatness
readings: [0.05 mm, 0.14 mm]
---
measurement: 2
measured: grind-foot/flatness
readings: 0.10 mm
note: Ground again.
""",
    fails="""\
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
""",
    check=check,
)
