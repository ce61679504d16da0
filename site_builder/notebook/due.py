"""What ends by the calendar: when a calibration or a piece of upkeep is due again, how long an open tin keeps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction

from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Dated, ParsedValue
from site_builder.notebook.model.things import Material
from site_builder.notebook.spans import day_after, longest_span
from site_builder.notebook.tree import Text
from site_builder.quantity import Cadence, Every, Quantity, Value

_LIVES = ("shelf life after opening", "shelf life")
"""What is open keeps less long than what is shut; where only the latter is told, it is surely past that."""


def next_due(last: Dated | None, when: object) -> date | None:
    """The last day on which it is still in time, done ``last``: by the shortest of its rhythms of time.

    None where no day is told, or where the rhythm is counted in pieces or events: no calendar can tell those.
    A month or a year as ``last`` counts from its end.
    """
    if last is None or not isinstance(when, ParsedValue) or not isinstance(when.value, Cadence):
        return None
    days = []
    for item in when.value.items:
        if isinstance(item, Every) and isinstance(item.amount, Quantity):
            span = longest_span(Value(item.amount))
            if span is not None:
                days.append(day_after(last.value.last, span))
    return min(days, default=None)


def keeps_until(material: Material) -> tuple[date, str] | None:
    """The last day of what is open now, and which life it is that ends; None where either is not told."""
    told = None if material.opened is None else _longest(material.properties)
    if material.opened is None or told is None:
        return None
    name, span = told
    return day_after(material.opened.value.last, span), name


def _longest(properties: Mapping[Text, Sequence[Limit]]) -> tuple[str, Fraction] | None:
    """The life that is told for an open tin, and its seconds in the case in which it keeps longest."""
    for name in _LIVES:
        written = [cell.written for limit in properties.get(Text(name), ()) for _, cell in limit.cells()]
        spans = [longest_span(one.value) for one in written if one is not None]
        told = [span for span in spans if span is not None]
        if written and len(told) == len(written):
            return name, max(told)
    return None
