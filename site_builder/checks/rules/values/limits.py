"""Limits as the rules meet them: the limit itself, its cells, and what it takes over from its table."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import reckoning
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Ask

CELL = "is_"
_GUIDE = ("yes", "true")


def limits_of(analysis: Analysis) -> Iterator[tuple[Limit, Place]]:
    """Every limit and window that stands by itself, in a list or under a name; not the cells of tables."""
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if place.key != CELL:
                yield limit, place


def told_in(limit: Limit) -> list[tuple[Limit, Written]]:
    """Every value that is told in a limit: its own, or those of the cells of its table."""
    cells = [cell for _, cell in limit.cells()] if isinstance(limit.is_, Table) else [limit]
    return [
        (cell, cell.written) for cell in cells
        if cell.written is not None and not isinstance(cell.written.value.what, Ask)
    ]


def cell_place(analysis: Analysis, cell: Limit, place: Place) -> Place:
    """Where a cell of a limit stands; a limit without a table is its own cell."""
    return place if cell is place.entry else reckoning(analysis).place_of[id(cell)]


def is_judged(limit: Limit) -> bool:
    """Whether its check says itself what good is, so that the figure is only a help."""
    return any(one.good or one.bad for one in limit.check)


def is_guide(limit: Limit) -> bool:
    """Whether it only shows where one is heading."""
    return limit.guide in _GUIDE
