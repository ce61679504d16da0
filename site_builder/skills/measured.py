"""What the measurements at the work of a skill tell: whether it is steady, whether it fits, whether the gauge does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.quantity import Bounds, Unit, same_dimensions
from site_builder.skills.evidence import Evidence
from site_builder.skills.gauge_rounds import studies
from site_builder.skills.progress import batches_of
from site_builder.skills.proof.capability import Capability, capability
from site_builder.skills.proof.control_limits import Limits, individuals
from site_builder.skills.proof.gauge_study import GaugeStudy, gauge_study
from site_builder.skills.proof.standard_time import Enough, timings_needed
from site_builder.skills.readings import figures_of, guides

ENOUGH = 8
"""With fewer readings limits are too loose to be told (common practice asks for a dozen and more)."""
CLOSE = 0.05
"""A time is well known when its mean is known to a twentieth (common practice)."""
TIMINGS = 5
"""With fewer timings their spread is too little known to tell how many would be enough (common practice)."""
_ALONE = ("alone", "teaches")


@dataclass(frozen=True, slots=True)
class Measured:
    """The readings against one limit in their order, in ``unit``; the parts that cannot be told are None.

    Whether the work ``fits`` its limit can be told only while it is steady.
    """

    limit: NamedValue
    path: str
    unit: str
    readings: tuple[float, ...]
    entries: tuple[Measurement, ...]
    steady: Limits | None
    fits: Capability | None
    gauge: GaugeStudy | None
    gauge_entries: tuple[Measurement, ...]


@dataclass(frozen=True, slots=True)
class Timed:
    """How long a piece takes hands that work alone: minutes, one figure an entry; how many are enough, where told."""

    procedure: str
    minutes: tuple[float, ...]
    enough: Enough | None


def measured(evidence: Evidence, skill: str, day: date | None) -> Iterator[Measured]:
    """Everything measured at the work of a skill, limit by limit."""
    groups: dict[tuple[int, str, str], tuple[NamedValue, list[Measurement]]] = {}
    for limit, one in evidence.measured_at(skill):
        if day is None or one.date is None or one.date.value.first <= day:
            groups.setdefault((id(limit.step or limit.entry), limit.key, limit.name), (limit, []))[1].append(one)
    for limit, entries in groups.values():
        told = _limits_of(evidence, limit, entries)
        unit = told.unit if told is not None else _unit(entries)
        if unit is not None:
            yield _measured(limit, entries, unit, told)


def _limits_of(evidence: Evidence, limit: NamedValue, entries: Sequence[Measurement]) -> Bounds | None:
    """The figures that all these were measured against; None where they cannot be told, or are not the same."""
    figures = {case.figures for one in entries for case in evidence.judge.cases_of(one, limit)}
    told = next(iter(figures), None)
    if told is None or len(figures) > 1 or told.relative or told.low_untold or told.high_untold:
        return None
    return None if guides(limit) else told


def _measured(limit: NamedValue, entries: list[Measurement], unit: Unit, told: Bounds | None) -> Measured:
    lower, upper = _ends(told)
    # rounds of a gauge study are about the gauge, and measure the same pieces again and again
    found = [rounds for rounds in studies(entries) if all(len(_figures(o, unit)) == len(o.readings) for o in rounds)]
    rounds = found[-1] if found else []
    about_the_gauge = {one.number for study in found for one in study}
    own = [one for one in entries if one.number not in about_the_gauge]
    readings = tuple(figure for one in own for figure in _figures(one, unit))
    steady = individuals(readings) if len(readings) >= ENOUGH and len(set(readings)) > 1 else None
    limited = lower is not None or upper is not None
    tolerance = upper - lower if lower is not None and upper is not None else None
    return Measured(
        limit, str(entries[0].measured), unit.symbol, readings, tuple(own),
        steady,
        capability(readings, lower, upper) if steady is not None and steady.steady and limited else None,
        _study(rounds, unit, tolerance), tuple(rounds),
    )


def _study(rounds: Sequence[Measurement], unit: Unit, tolerance: float | None) -> GaugeStudy | None:
    if not rounds:
        return None
    of: dict[str, list[list[float]]] = {}
    for one in rounds:
        of.setdefault(str(one.who), []).append(_figures(one, unit))
    pieces = range(len(_figures(rounds[0], unit)))
    readings = [[[again[piece] for again in own] for own in of.values()] for piece in pieces]
    if len({figure for piece in readings for cell in piece for figure in cell}) < 2:
        return None
    return gauge_study(readings, tolerance)


def timed(evidence: Evidence, skill: str, day: date | None) -> Iterator[Timed]:
    """How long a piece takes at each procedure of a skill, where it was timed at least twice."""
    found: dict[str, list[float]] = {}
    for person in evidence.notebook.people:
        for batch in batches_of(evidence.practice(person, skill, day)):
            if batch.seconds and batch.made and batch.entry.level in _ALONE:
                found.setdefault(str(batch.entry.procedure), []).append(batch.seconds / batch.made / 60)
    for procedure, minutes in found.items():
        if len(minutes) > 1:
            yield Timed(procedure, tuple(minutes), timings_needed(minutes, CLOSE) if len(minutes) >= TIMINGS else None)


def _ends(told: Bounds | None) -> tuple[float | None, float | None]:
    if told is None:
        return None, None
    low, high = told.low, told.high
    return (None if low is None else float(told.shown(low)), None if high is None else float(told.shown(high)))


def _unit(entries: Sequence[Measurement]) -> Unit | None:
    for one in entries:
        for reading in one.readings:
            found = figures_of(reading.value)
            if found is not None:
                return found.unit
    return None


def _figures(one: Measurement, unit: Unit) -> list[float]:
    found = (figures_of(reading.value) for reading in one.readings)
    return [float((figure.aim_low - unit.offset) / unit.factor) for figure in found
            if figure is not None and figure.aim_low is not None and same_dimensions(figure.unit, unit)]
