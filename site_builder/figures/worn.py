"""How large a wheel is now: as it was last measured, or as far as it may wear."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, once, property_of, span_of
from site_builder.formulas.interval import Interval
from site_builder.notebook.model.records import Measurement
from site_builder.quantity import bounds

SIZE, LEAST = "wheel size", "least size"


def size_now(known: FigureInputs, tooling: str) -> Given | None:
    """The latest reading in the book of measurements; without one, the size at which it is thrown away."""
    measured = _measured(known).get(tooling)
    if measured is not None:
        return measured
    least = property_of(known, tooling, LEAST)
    return least if least is not None and least.unit.kind == "length" else None


@once
def _measured(known: FigureInputs) -> Mapping[str, Given]:
    """Tooling to the size it was last measured at."""
    latest: dict[str, tuple[date, Given]] = {}
    for entry, _ in known.index.of(Measurement):
        tooling, slash, what = str(entry.measured or "").partition("/")
        if not slash or what != SIZE or not entry.readings or tooling not in known.notebook.tools:
            continue
        reading = entry.readings[-1]
        found = bounds(reading.value)
        span = span_of(found) if found is not None else None
        day = entry.date.value.last if entry.date is not None else date.min
        if found is None or span is None or found.kind != "length" or day < latest.get(tooling, (day,))[0]:
            continue
        told = Input("size now", f"{reading}, measured {entry.date or ''}".rstrip(), "tool", tooling, at=reading.at)
        latest[tooling] = (day, Given(Interval(span.low, span.high), found.unit, found.rough, told))
    return {tooling: given for tooling, (_, given) in latest.items()}
