"""How long the work between two moments takes at the least."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import reckoning
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.references import step_of
from site_builder.quantity import Event, Moment, bounds

_LAST = 10**6


def least_between(analysis: Analysis, window: Window, place: Place) -> Fraction | None:
    """Seconds that the steps between the two moments of a window take at the least, waiting included.

    None where the moments are not both in this procedure, or in one right before it.
    """
    own = place.procedure
    if own is None or not window.after:
        return None
    after = [_moment(analysis, one.value, own) for one in window.after]
    if any(one is None for one in after):
        return None
    start = max(one for one in after if one is not None)
    end = _end(analysis, window, place, own)
    if end is None or end <= start:
        return None
    total = Fraction(0)
    for number, step in enumerate(own.steps):
        if start <= 2 * number and 2 * number + 1 <= end:
            total += _least_time(step)
        if start <= 2 * number + 1 and 2 * number + 2 <= end and number + 1 < len(own.steps):
            total += _least_wait(analysis, step)
    return total


def _moment(analysis: Analysis, moment: Moment, own: Procedure) -> int | None:
    """A moment counted in starts (even) and ends (odd) of the steps; before the first, 0."""
    if not isinstance(moment, Event):
        return None
    name = moment.name.removeprefix(f"{own.procedure}/")
    if name == own.procedure:
        return 0 if moment.edge == "start" else _LAST
    step = step_of(own, name)
    if step is not None:
        number = next((i for i, one in enumerate(own.steps) if one is step or step in one.also), None)
        return None if number is None else 2 * number + (0 if moment.edge == "start" else 1)
    target = analysis.references.find(name, ("procedure",))
    return 0 if target is not None and target.id in analysis.route.before.get(str(own.procedure), ()) else None


def _end(analysis: Analysis, window: Window, place: Place, own: Procedure) -> int | None:
    if window.before is not None:
        moment = window.before.value
        end = _moment(analysis, moment, own)
        if end is None and isinstance(moment, Event):
            target = analysis.references.find(moment.name.partition("/")[0], ("procedure",))
            follows = target is not None and str(own.procedure) in analysis.route.before.get(target.id, ())
            return _LAST if follows else None
        return end
    if isinstance(place.parent and place.parent.entry, Procedure):
        return _LAST
    number = next((i for i, one in enumerate(own.steps) if one is place.step), None)
    return None if number is None else 2 * number


def _least_time(step: Step) -> Fraction:
    """Work time of one piece at the least; nothing for a step that may be left out."""
    if step.unless is not None or step.when is not None or step.for_:
        return Fraction(0)
    told = [
        _least(one) for time in step.time for one in (time.each or time.load or time.lot,)
        if one is not None
    ]
    return min(told, default=Fraction(0)) if len(told) == len(step.time) else Fraction(0)


def _least(written: Written) -> Fraction:
    found = bounds(written.value)
    if found is None or found.kind != "time":
        return Fraction(0)
    figures = [one for one in (found.low, found.aim_low) if one is not None]
    return min(figures, default=Fraction(0))


def _least_wait(analysis: Analysis, step: Work) -> Fraction:
    if step.unless is not None or step.for_:
        return Fraction(0)
    lows = [low for limit in step.wait for low in _lows(analysis, limit)]
    return min(lows, default=Fraction(0))


def _lows(analysis: Analysis, limit: Limit) -> Iterable[Fraction]:
    for found in reckoning(analysis).bounds_of(limit):
        told = found is not None and found.kind == "time" and found.low is not None
        yield found.low if found is not None and told and found.low is not None else Fraction(0)
