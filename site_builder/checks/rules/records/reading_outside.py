from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.measured import cells_of, figures_of, limit_of
from site_builder.checks.rules.records.standing import standing
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.leaves import Written
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.quantity import Bounds, same_dimensions

_GUIDE = ("yes", "true")


def check(survey: Survey) -> Iterator[Found]:
    for limit, (entry, place) in _last_of_each(survey).values():
        accepted = _accepted(limit)
        for reading in entry.readings if accepted else ():
            if _outside(reading, accepted):
                written = next(text for _, text in cells_of(limit))
                yield Found(
                    reading.at,
                    f"{reading} is outside of “{limit.name}” ({written}), and no entry comes after it.",
                    "Enter the reading taken after it was put right, with a `note` on what was done.",
                    place.owner_id,
                )


def _last_of_each(survey: Survey) -> dict[tuple[int, str, str], tuple[NamedValue, tuple[Measurement, Place]]]:
    """Of each limit the last entry; whatever came before it has an entry after it."""
    found = {}
    for entry, place in standing(survey, Measurement):
        limit = limit_of(survey, entry, place)
        if limit is not None:
            found[id(limit.step or limit.entry), limit.key, limit.name] = (limit, (entry, place))
    return found


def _accepted(limit: NamedValue) -> list[Bounds]:
    """The figures of every variant; none where one of them cannot be told, or only shows the way."""
    found = []
    for cell, written in cells_of(limit):
        figures = figures_of(written.value)
        if figures is None or not figures.limited or figures.relative or cell.guide in _GUIDE:
            return []
        found.append(figures)
    return found


def _outside(reading: Written, accepted: list[Bounds]) -> bool:
    """Whether a reading, or an end of it, fits no variant."""
    read = figures_of(reading.value)
    if read is None:
        return False
    figures = {figure for figure in (read.aim_low, read.aim_high, read.low, read.high) if figure is not None}
    fitting = [limit for limit in accepted if same_dimensions(limit.unit, read.unit)]
    return bool(fitting) and not any(all(map(limit.accepts, figures)) for limit in fitting)


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
