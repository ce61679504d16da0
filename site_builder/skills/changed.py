"""What a change of the way of working brought, tested: counts and values before against those since."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.records import Measurement, Practice, Record
from site_builder.notebook.model.shop import Change, Result
from site_builder.notebook.way import span
from site_builder.quantity import Quantity, Unit, Value, kind_of, same_dimensions
from site_builder.skills.evidence import Evidence
from site_builder.skills.proof.comparison import SharesCompared, compare_shares
from site_builder.skills.proof.values_compared import Moved, compare_values
from site_builder.skills.readings import figures_of

LEAST = 3
"""So many values on each side; of fewer no test can tell anything."""
_OF_ONE = re.compile(r"\b(one|each|every|per|a piece)\b")


@dataclass(frozen=True, slots=True)
class Shift:
    """Values that the change cites, of ``what``, in ``unit``, and how they moved."""

    what: str
    unit: str
    moved: Moved


def failures(result: Result) -> SharesCompared | None:
    """A result told as counts on both sides, as ``9 pieces per 200 pieces``; rough figures were not counted."""
    old, new = _counts(_only(result.old)), _counts(_only(result.new))
    return compare_shares(*old, *new) if old is not None and new is not None else None


def times_of_one(name: str, result: Result) -> tuple[float, float] | None:
    """Minutes for one piece before and since, where the name of the result says that it is the time of one."""
    old, new = _only(result.old), _only(result.new)
    if old is None or new is None or not _OF_ONE.search(name):
        return None
    if kind_of(old.value) != "time" or kind_of(new.value) != "time":
        return None
    before, since = span(old), span(new)
    if before is None or since is None:
        return None
    return float(sum(before) / 120), float(sum(since) / 120)


def shifts(evidence: Evidence, change: Change) -> Iterator[Shift]:
    """The measurements and the times of practice that a change cites from before and from since."""
    if change.date is None:
        return
    cited = [record for text in change.evidence if (record := evidence.record(str(text))) is not None]
    groups: dict[tuple[str, str], tuple[list[float], list[float]]] = {}
    for record in cited:
        if record.date is None or evidence.answered(record):
            continue
        since = record.date.value.last >= change.date.value.first
        for what, unit, value in _values(record):
            groups.setdefault((what, unit), ([], []))[since].append(value)
    for (what, unit), (before, after) in groups.items():
        if min(len(before), len(after)) >= LEAST and len({*before, *after}) > 1:
            yield Shift(what, unit, compare_values(before, after))


def _values(record: Record) -> Iterator[tuple[str, str, float]]:
    if isinstance(record, Measurement) and record.measured is not None:
        units = [found.unit for one in record.readings if (found := figures_of(one.value)) is not None]
        for reading in record.readings:
            found = figures_of(reading.value)
            if found is not None and found.aim_low is not None and same_dimensions(found.unit, units[0]):
                yield str(record.measured), units[0].symbol, _in(units[0], found.aim_low)
    elif isinstance(record, Practice) and record.took is not None and record.pieces is not None:
        took, pieces = span(record.took), figures_of(record.pieces.value)
        if took is not None and pieces is not None and pieces.aim_low:
            yield str(record.procedure), "min", float(sum(took) / 120 / pieces.aim_low)


def _in(unit: Unit, figure: Fraction) -> float:
    return float((figure - unit.offset) / unit.factor)


def _only(limits: tuple[Limit, ...]) -> Written | None:
    return limits[0].written if len(limits) == 1 else None


def _counts(written: Written | None) -> tuple[int, int] | None:
    value: Value | None = written.value if written is not None else None
    what = value.what if value is not None else None
    if not isinstance(what, Quantity) or len(what.parts) != 1 or what.per is None or what.per.number is None:
        return None
    part, unit, of = what.parts[0].number.exact, what.parts[0].unit, what.per.number.exact
    whole = part.denominator == 1 and of.denominator == 1
    if not unit.counted or what.per.unit != unit or not whole or not 0 <= part <= of or of == 0:
        return None
    return int(part), int(of)
