from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.records import Measurement
from site_builder.quantity import Ask, same_dimensions, unit_of_value
from site_builder.skills.readings import cells_of, limit_of


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="reading-unit",
    level=Level.ERROR,
    summary="A reading in a unit that does not fit its limit.",
    reason="A length cannot be compared with a mass. Either the unit is a slip of the pen, or the "
    "reading belongs to another limit.",
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
readings: [0.05 mm, 60 µm]
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
readings: [0.05 mm, ▸60 g]
""",
    check=check,
)
