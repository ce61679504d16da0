"""The rows of a table: the names it is read by, and what each row says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import once
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Check, Inspection
from site_builder.notebook.model.limit import By, Limit, Table, Window
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.notebook.tree import Text
from site_builder.quantity import Bounds, NotationError, bounds, parse_value


class Rows(NamedTuple):
    """Rows that stand side by side, and the name they are read by (None: there is no such name)."""

    by: By | None
    names: tuple[Text, ...]
    place: Place


@once
def every_rows(analysis: Analysis) -> tuple[Rows, ...]:
    """Every set of rows in the notebook: of limits, and of cadences read by a name."""
    return tuple(_every_rows(analysis))


def _every_rows(analysis: Analysis) -> Iterator[Rows]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if isinstance(limit.is_, Table):
                yield from _inside(limit.is_, limit.by, place)
    for kind_of_check in (Check, Inspection):
        for check, place in analysis.index.of(kind_of_check):
            if isinstance(check.when, Mapping):
                yield Rows(check.by[0] if check.by else None, tuple(check.when), place)


def _inside(table: Table, by: tuple[By, ...], place: Place) -> Iterator[Rows]:
    yield Rows(by[0] if by else None, tuple(table.rows), place)
    for inside in table.rows.values():
        if isinstance(inside, Table):
            yield from _inside(inside, by[1:], place)


class Row(NamedTuple):
    """A row of a measured name: from where to where it holds."""

    text: Text
    found: Bounds


def measured(analysis: Analysis, rows: Rows) -> list[Row]:
    """The rows that are figures of one kind, in order of size; none where they are words."""
    found_rows = []
    for text in rows.names:
        found = _figures(analysis, text)
        if found is not None:
            found_rows.append(Row(text, found))
    return sorted(found_rows, key=_begin)


def _figures(analysis: Analysis, text: Text) -> Bounds | None:
    if not any(letter.isdigit() for letter in text):
        return None
    try:
        found = bounds(parse_value(text, frozenset(word.lower() for word in analysis.notebook.words)))
    except NotationError:
        return None
    if found is not None and not found.limited and found.aim_low is not None:
        return Bounds(found.unit, found.aim_low, found.aim_high)
    return found


def _begin(row: Row) -> tuple[bool, object]:
    return row.found.low is not None, row.found.low or 0


def variants_at(analysis: Analysis, place: Place) -> dict[str, tuple[str, ...]]:
    """The dimensions declared for the shop, in this procedure, or found by its work, with their values.

    For a tool or a material those of all procedures hold, for it goes along with the work.
    """
    nb = analysis.notebook
    found: dict[str, tuple[str, ...]] = {}
    own = [place.owner] if isinstance(place.owner, Procedure) else list(nb.procedures.values())
    for procedure in own:
        if isinstance(procedure, Procedure):
            for name, variant in procedure.variants.items():
                found[str(name)] = (*found.get(str(name), ()), *map(str, variant.values))
            for work in (procedure, *procedure.steps):
                for name, shown in work.finds.items():
                    found[str(name)] = (*found.get(str(name), ()), *map(str, shown))
    if nb.shop is not None:
        for name, variant in nb.shop.variants.items():
            found[str(name)] = (*found.get(str(name), ()), *map(str, variant.values))
    return found


def values_of_dimension(analysis: Analysis, name: str) -> frozenset[str] | None:
    """What a known dimension can be; None where any word will do."""
    nb = analysis.notebook
    if name == "material":
        return frozenset((*nb.materials, *nb.parts))
    if name in ("part", "product"):
        return frozenset(nb.parts)
    if name == "machine":
        return frozenset(nb.tools)
    if name == "customer":
        return None if nb.shop is None else frozenset(map(str, nb.shop.customers))
    if name == "level":
        return frozenset(("watches", "beside", "within call", "alone", "teaches"))
    return None


def is_dimension(name: str) -> bool:
    """Whether every shop has this dimension without declaring it."""
    return name in KNOWN_DIMENSIONS
