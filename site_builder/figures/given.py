"""Values of the notebook as figures to reckon with: where to be, or what is allowed, and the line that says so."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar
from weakref import WeakKeyDictionary

from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import At
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.references import References
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import as_condition, can_hold_together, row_of
from site_builder.quantity import Bounds, Unit, same_dimensions

T = TypeVar("T")
_NAMED = ("settings", "conditions", "limits", "properties")


@dataclass(frozen=True, slots=True)
class Given:
    """A value as figures in base units, the unit it was written in, and where it stands."""

    span: Interval
    unit: Unit
    rough: bool
    input: Input
    holds: Condition = ()
    """When it is so; empty where it always is."""

    @property
    def at(self) -> At:
        """The line that wrote it."""
        return self.input.at or At("")

    @property
    def is_inch(self) -> bool:
        """Whether the shop wrote it in inch units."""
        return self.unit.system == "inch"


def once(work: Callable[[FigureInputs], T]) -> Callable[[FigureInputs], T]:
    """The same function, which remembers its answer for each notebook."""
    held: WeakKeyDictionary[References, T] = WeakKeyDictionary()

    def remembered(known: FigureInputs) -> T:
        references = known.references
        if references not in held:
            held[references] = work(known)
        return held[references]

    return remembered


@once
def limits_by_name(known: FigureInputs) -> Mapping[str, list[tuple[Limit, Place]]]:
    """Every setting, condition, limit and property by its name, in order; not the cells of tables."""
    found: dict[str, list[tuple[Limit, Place]]] = defaultdict(list)
    for limit, place in known.index.of(Limit):
        if place.key in _NAMED and place.name is not None:
            found[str(place.name)].append((limit, place))
    return found


def span_of(found: Bounds) -> Interval | None:
    """From where to where: both limits; with one of them only, from it to the aim; of a plain figure itself."""
    if found.relative:
        return None
    low = next((one for one in (found.low, found.aim_low, found.high) if one is not None), None)
    high = next((one for one in (found.high, found.aim_high, found.low) if one is not None), None)
    if low is None or high is None:
        return None
    return Interval(*sorted((float(low), float(high))))


def given_of(
    known: FigureInputs, limits: Iterable[Limit], name: str, kind: str, id_: str, *,
    step: Step | None = None, chosen: Mapping[str, str] | None = None,
) -> Given | None:
    """One span about all of these that hold for what is chosen; None where one of them cannot be told."""
    found: list[tuple[Bounds, Written]] = []
    for limit in limits:
        for rows, cell in limit.cells():
            if not _holds(limit, cell, rows, chosen or {}):
                continue
            figures = known.reckoning.bounds(cell.written) if cell.written is not None else None
            if figures is None or cell.written is None:
                return None
            found.append((figures, cell.written))
    return _given(found, name, kind, id_, step)


def given_here(
    known: FigureInputs, written: Written, name: str, kind: str, id_: str, step: Step | None = None
) -> Given | None:
    """A single value."""
    figures = known.reckoning.bounds(written)
    return None if figures is None else _given([(figures, written)], name, kind, id_, step)


def time_each(known: FigureInputs, own: Procedure) -> Given | None:
    """The time for one piece, about all rows of it: none of several ways is taken for all."""
    told = [time.each for time in own.time]
    return given_all(known, told, "time for one", "procedure", str(own.procedure))


def given_all(known: FigureInputs, told: Iterable[Written | None], name: str, kind: str, id_: str) -> Given | None:
    """One span about several values, each of which may hold; None where one of them is not told."""
    found: list[tuple[Bounds, Written]] = []
    for written in told:
        figures = known.reckoning.bounds(written) if written is not None else None
        if figures is None or written is None:
            return None
        found.append((figures, written))
    return _given(found, name, kind, id_, None)


def rows_of(
    known: FigureInputs, limits: Iterable[Limit], name: str, kind: str, id_: str, *, step: Step | None = None,
    around: Condition = (),
) -> tuple[Given, ...]:
    """Each value and row that can hold together with what is around it, by itself, with when it holds."""
    found: list[Given] = []
    for limit in limits:
        for rows, cell in limit.cells():
            holds = row_of(limit, rows, cell)
            given = given_here(known, cell.written, name, kind, id_, step) if cell.written is not None else None
            if given is not None and can_hold_together(holds, around):
                found.append(replace(given, holds=holds))
    return tuple(found)


def property_rows(known: FigureInputs, id_: str, name: str, around: Condition = ()) -> tuple[Given, ...]:
    """A property of a tool or a material row by row; what its groups say holds for it too."""
    nb = known.notebook
    for one in (id_, *nb.groups.get(id_, ())):
        limits = nb.things[one].properties.get(Text(name), ()) if one in nb.things else ()
        if limits:
            return rows_of(known, limits, name, "material" if one in nb.materials else "tool", one, around=around)
    return ()


def property_of(known: FigureInputs, id_: str, name: str, chosen: Mapping[str, str] | None = None) -> Given | None:
    """A property of a tool or a material; what its groups say holds for it too."""
    if chosen:
        return _property(known, id_, name, chosen)
    found = _properties(known)
    if (id_, name) not in found:
        found[id_, name] = _property(known, id_, name, None)
    return found[id_, name]


@once
def _properties(_known: FigureInputs) -> dict[tuple[str, str], Given | None]:
    """Properties that were looked up already: many works are done with the same few things."""
    return {}


def _property(known: FigureInputs, id_: str, name: str, chosen: Mapping[str, str] | None) -> Given | None:
    nb = known.notebook
    for one in (id_, *nb.groups.get(id_, ())):
        limits = nb.things[one].properties.get(Text(name), ()) if one in nb.things else ()
        if limits:
            kind = "material" if one in nb.materials else "tool"
            return given_of(known, limits, name, kind, one, chosen=chosen)
    return None


def guarded(
    work: Callable[[], Iterable[Figure | Missing]], inputs: Sequence[Input]
) -> Iterator[Figure | Missing | Fault]:
    """What the work yields; where one of its inputs cannot be, the fault at the line that wrote it."""
    try:
        yield from tuple(work())
    except Impossible as problem:
        told = [one for one in inputs if one.at is not None]
        named = [one for one in told if one.name in problem.argument or problem.argument in one.name]
        for blamed in (*named, *told)[:1]:
            if blamed.at is not None:
                # The figure is told in base units; beside it stands what the shop wrote.
                yield Fault(blamed.at, f"{problem} (`{blamed.written}`)" if blamed in named else str(problem))


def _given(
    found: Sequence[tuple[Bounds, Written]], name: str, kind: str, id_: str, step: Step | None
) -> Given | None:
    if not found:
        return None
    first, leaf = found[0]
    spans = [span_of(figures) for figures, _ in found]
    told = [one for one in spans if one is not None]
    if len(told) < len(found) or not all(same_dimensions(first.unit, figures.unit) for figures, _ in found):
        return None
    written = " or ".join(dict.fromkeys(str(one) for _, one in found))
    return Given(
        Interval(min(one.low for one in told), max(one.high for one in told)), first.unit,
        any(figures.rough for figures, _ in found), Input(name, written, kind, id_, step, leaf.at),
    )


def _holds(limit: Limit, cell: Limit, rows: Sequence[Text], chosen: Mapping[str, str]) -> bool:
    return can_hold_together(row_of(limit, rows, cell), as_condition(chosen))
