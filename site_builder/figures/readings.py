"""What the book of measurements says of a value: all readings that still stand, in base units."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import once, span_of
from site_builder.notebook.finding import At
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.quantity import bounds

LATEST = 60
"""So many readings count, the latest: what was before says little about the parts of today."""


class Reading(NamedTuple):
    """One reading: its figure in base units (the middle of a span), as it was written, and where."""

    figure: float
    written: str
    at: At


class Readings(NamedTuple):
    """Figures in base units, oldest first, and where the last of them stands."""

    figures: tuple[float, ...]
    input: Input
    named: NamedValue
    """The value that was measured."""
    last: tuple[Reading, ...]
    """Those of the last entry."""
    entry: Measurement
    """The last entry."""


def readings_of(known: FigureInputs, named: NamedValue) -> Readings | None:
    """The readings of one value; None where there is none."""
    return _all(known).get(id(named))


@once
def _all(known: FigureInputs) -> Mapping[int, Readings]:
    gone = {
        int(earlier) for entry in known.notebook.measurements for earlier in (entry.corrects, entry.withdraws)
        if earlier is not None and int(earlier) < entry.number
    }
    found: dict[int, Readings] = {}
    for entry, place in known.index.of(Measurement):
        if entry.number in gone or entry.measured is None:
            continue
        hits = known.references.values(str(entry.measured), place)
        told = [(reading, found_in) for reading in entry.readings if (found_in := bounds(reading.value)) is not None]
        if len(hits) != 1 or not told:
            continue
        last = tuple(
            Reading(span.middle, str(reading), reading.at) for reading, one in told
            if (span := span_of(one)) is not None
        )
        if not last:
            continue
        before = found.get(id(hits[0]))
        figures = (*(before.figures if before is not None else ()), *(one.figure for one in last))[-LATEST:]
        written = f"{_times(len(figures))}, the last on {entry.date or 'a day that is not told'}"
        kind = "procedure" if hits[0].owner_id in known.notebook.procedures else ""
        found[id(hits[0])] = Readings(
            figures, Input(f"{hits[0].name}, measured", written, kind, hits[0].owner_id, hits[0].step, told[-1][0].at),
            hits[0], last, entry,
        )
    return found


def _times(count: int) -> str:
    return "1 reading" if count == 1 else f"{count} readings"


def all_readings(known: FigureInputs) -> tuple[tuple[NamedValue, Readings], ...]:
    """Every value that was measured, in the order of the book."""
    return tuple((read.named, read) for read in _all(known).values())
