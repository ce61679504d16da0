"""What the book of measurements says of a value: all readings that still stand, in base units."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from site_builder.figures.figure import Input
from site_builder.figures.given import once, span_of
from site_builder.figures.known import Known
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.quantity import bounds

LATEST = 60
"""So many readings count, the latest: what was before says little about the parts of today."""


class Readings(NamedTuple):
    """Figures in base units, oldest first, and where the last of them stands."""

    figures: tuple[float, ...]
    input: Input
    named: NamedValue
    """The value that was measured."""


def readings_of(known: Known, named: NamedValue) -> Readings | None:
    """The readings of one value; None where there is none."""
    return _all(known).get(id(named))


@once
def _all(known: Known) -> Mapping[int, Readings]:
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
        spans = [span for _, one in told if (span := span_of(one)) is not None]
        before = found.get(id(hits[0]))
        figures = (*(before.figures if before is not None else ()), *(span.middle for span in spans))[-LATEST:]
        written = f"{len(figures)} readings, the last on {entry.date or 'a day that is not told'}"
        kind = "procedure" if hits[0].owner_id in known.notebook.procedures else ""
        found[id(hits[0])] = Readings(
            figures, Input(f"{hits[0].name}, measured", written, kind, hits[0].owner_id, hits[0].step, told[-1][0].at),
            hits[0],
        )
    return found


def all_readings(known: Known) -> tuple[tuple[NamedValue, Readings], ...]:
    """Every value that was measured, in the order of the book."""
    return tuple((read.named, read) for read in _all(known).values())
