"""The days of a season on which a machine is not all there: upkeep that falls due, gauges that go to be calibrated."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from site_builder.batch.span import written_span
from site_builder.notebook.due import next_due
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.things import Tool, Upkeep
from site_builder.plans.calendar import Days

_WEEK = 7
"""What comes round oftener is part of the day's work. Common practice."""


def kept_up(tool: Tool, days: Days, open_: tuple[int, ...], assumed: dict[str, None]) -> tuple[int, ...]:
    """Seconds of each day, less what upkeep and calibration take: on the working day on which they are due, or the next
    one. Calibration takes the whole day. Upkeep whose time is not told takes nothing, which is said in ``assumed``."""
    left = list(open_)
    for upkeep in tool.upkeep:
        if upkeep.for_ or upkeep.unless is not None:
            continue
        due = tuple(_due(upkeep.date, upkeep.when, days))
        seconds = _takes(upkeep)
        if due and seconds is None:
            assumed[f"“{tool.title}”: how long its upkeep takes is not told; it is taken to need no time of the day."] \
                = None
        for day in due:
            _less(left, day, seconds or 0)
    if tool.calibration is not None:
        for day in _due(tool.calibration.date, tool.calibration.when, days):
            _less(left, day, 86_400)
    return tuple(left)


def _less(left: list[int], day: int, seconds: int) -> None:
    at = next((one for one in range(day, len(left)) if left[one]), None)
    if at is not None:
        left[at] = max(left[at] - seconds, 0)


def _takes(upkeep: Upkeep) -> int | None:
    told = [span.most for time in upkeep.time for leaf in (time.setup, time.each, time.lot) if leaf is not None
            if (span := written_span(leaf, "time")) is not None]
    return int(sum(told)) if told else None


def _due(last: Dated | None, when: object, days: Days) -> Iterator[int]:
    """The days of a season on which it is due; what is overdue is due on the first."""
    first = next_due(last, when)
    if last is None or first is None:
        return
    apart: timedelta = first - last.value.last
    if apart < timedelta(days=_WEEK):
        return
    day: date = max(first, days.first)
    while (number := days.number(day)) < days.count:
        yield number
        day += apart
