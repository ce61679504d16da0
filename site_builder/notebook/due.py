"""When something that comes round by the calendar is due again: a calibration, a piece of upkeep."""

from __future__ import annotations

from datetime import date

from site_builder.notebook.model.leaves import Dated, Leaf
from site_builder.notebook.spans import day_after, longest_span
from site_builder.quantity import Cadence, Every, Quantity, Value


def next_due(last: Dated | None, when: object) -> date | None:
    """The last day on which it is still in time, done ``last``: by the shortest of its rhythms of time.

    None where no day is told, or where the rhythm is counted in pieces or events: no calendar can tell those.
    A month or a year as ``last`` counts from its end.
    """
    if last is None or not isinstance(when, Leaf) or not isinstance(when.value, Cadence):
        return None
    days = []
    for item in when.value.items:
        if isinstance(item, Every) and isinstance(item.amount, Quantity):
            span = longest_span(Value(item.amount))
            if span is not None:
                days.append(day_after(last.value.last, span))
    return min(days, default=None)
