"""What a measurement was measured against: the limit, its figures and its unit."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from site_builder.checks.survey import Survey
from site_builder.notebook.index import Place
from site_builder.notebook.model.leaves import Leaf
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.quantity import Bounds, Value, bounds


@lru_cache(maxsize=8192)
def figures_of(value: Value) -> Bounds | None:
    """The figures of a value; a book holds the same few readings over and over."""
    return bounds(value)


def limit_of(survey: Survey, entry: Measurement, place: Place) -> NamedValue | None:
    """The one value that an entry names; None where it names none, or more than one."""
    if entry.measured is None:
        return None
    found = survey.references.values(str(entry.measured), place)
    return found[0] if len(found) == 1 else None


def cells_of(limit: NamedValue) -> Iterator[tuple[Limit, Leaf[Value]]]:
    """Every written value of a limit: of each variant, and of each row of its tables."""
    for one in limit.limits:
        for _, cell in one.cells():
            if cell.written is not None:
                yield cell, cell.written
