"""How long pieces wait between two works of an order: in whole days of the calendar, at least and at most."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from site_builder.batch.leg import Leg
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import once
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.way import stands_after
from site_builder.quantity import Event, Moment

_DAY = 86_400
_HALF_DAY = 12 * 3_600
"""What may stand so long may stand from the afternoon to the next morning. Common practice."""
_OVERNIGHT = 6 * 3_600
"""A wait from six hours on is taken as overnight: nobody comes back to it on the same day. Common practice."""


def least_days(leg: Leg, most: int | None) -> int:
    """Days from one work to the next: what is done today goes on tomorrow, later where it must stand longer; on the
    same day only where it may not stand overnight."""
    if most == 0:
        return 0
    stands = sum(float(span.most) for span in leg.waits)
    return max(1, ceil(stands / _DAY)) if stands >= _OVERNIGHT else 1


def most_days(known: FigureInputs, leg: Leg, after: str) -> int | None:
    """The most days until the next work, by the wait at its end and by the windows between the two; None if none."""
    # the wait at its end is counted from the end of the work; what stands within the work comes before it
    within = sum(float(span.most) for span in leg.waits[:-1]) if stands_after(leg.procedure) else 0.0
    inside = ceil(within / _DAY) if within >= _OVERNIGHT else 0
    found = [inside + days for limit in stands_after(leg.procedure) if (days := _most(known, limit)) is not None]
    window = _windows(known).get((leg.id, after))
    if window is not None:
        found.append(window)
    return min(found, default=None)


def stands_on_a_day(known: FigureInputs, leg: Leg, after: str) -> tuple[int, int | None]:
    """Seconds between two works that are done on one day, at least and at most."""
    least = sum(float(span.most) for span in leg.waits)
    highs = [high for limit in stands_after(leg.procedure) for high in _highs(known, limit)]
    for window, place in known.index.of(Window):
        if place.procedure is not None and (leg.id, after) in _pairs(known, window, place.owner_id):
            highs += _highs(known, window)
    return ceil(least) if least < _OVERNIGHT else 0, int(min(highs)) if highs else None


def _most(known: FigureInputs, limit: Limit) -> int | None:
    highs = _highs(known, limit)
    if not highs:
        return None
    return int(min(highs) // _DAY) if min(highs) >= _DAY else int(min(highs) >= _HALF_DAY)


def _highs(known: FigureInputs, limit: Limit) -> list[float]:
    return [float(one.high) for one in known.reckoning.bounds_of(limit)
            if one is not None and one.kind == "time" and one.high is not None]


@once
def _windows(known: FigureInputs) -> Mapping[tuple[str, str], int]:
    """(earlier, later) procedure: the most days that a window between them allows."""
    found: dict[tuple[str, str], int] = {}
    for window, place in known.index.of(Window):
        if place.procedure is None:
            continue
        days = _most(known, window)
        if days is not None:
            for pair in _pairs(known, window, place.owner_id):
                found[pair] = min(days, found.get(pair, days))
    return found


def _pairs(known: FigureInputs, window: Window, own: str) -> Iterator[tuple[str, str]]:
    """(earlier, later) procedures that a window lies between."""
    ends = _procedure(known, window.before.value, own) if window.before is not None else own
    for begin in {_procedure(known, moment.value, own) for moment in window.after}:
        if begin is not None and ends is not None and begin != ends:
            yield begin, ends


def _procedure(known: FigureInputs, moment: Moment, own: str) -> str | None:
    """The procedure that a moment lies in; its own where it names a step of it, None for what is no work."""
    if not isinstance(moment, Event):
        return None
    name = moment.name.strip()
    first = name.split("/")[0]
    if first in known.notebook.procedures:
        return first
    steps = known.notebook.procedures[own].steps
    return own if any(step.id == first for step in steps) else None
