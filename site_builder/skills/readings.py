"""What a measurement was measured against: the limit, its figures and its unit, and whether it was kept."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import ParsedValue, Written
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.notebook.references import References
from site_builder.quantity import Bounds, Value, bounds, same_dimensions

_GUIDE = ("yes", "true")


@lru_cache(maxsize=8192)
def figures_of(value: Value) -> Bounds | None:
    """The figures of a value; a book holds the same few readings over and over."""
    return bounds(value)


def limit_of(references: References, entry: Measurement, place: Place) -> NamedValue | None:
    """The one value that an entry names; None where it names none, or more than one."""
    if entry.measured is None:
        return None
    found = references.values(str(entry.measured), place)
    return found[0] if len(found) == 1 else None


def cells_of(limit: NamedValue) -> Iterator[tuple[Limit, ParsedValue[Value]]]:
    """Every written value of a limit: of each variant, and of each row of its tables."""
    for one in limit.limits:
        for _, cell in one.cells():
            if cell.written is not None:
                yield cell, cell.written


def accepted(limit: NamedValue) -> list[Bounds]:
    """The figures of every variant; none where one of them cannot be told, or only shows the way."""
    found = []
    for cell, written in cells_of(limit):
        figures = figures_of(written.value)
        if figures is None or not figures.limited or figures.relative or cell.guide in _GUIDE:
            return []
        found.append(figures)
    return found


def outside(reading: Written, kept: list[Bounds]) -> bool:
    """Whether a reading, or an end of it, fits no variant."""
    read = figures_of(reading.value)
    if read is None:
        return False
    figures = {figure for figure in (read.aim_low, read.aim_high, read.low, read.high) if figure is not None}
    fitting = [limit for limit in kept if same_dimensions(limit.unit, read.unit)]
    return bool(fitting) and not any(all(map(limit.accepts, figures)) for limit in fitting)
