"""Figures that nothing in the shop can have: they are told at the line that wrote them, and left out of the batch."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from site_builder.formulas.errors import Impossible
from site_builder.notebook.finding import At


@dataclass(frozen=True, slots=True)
class BadFigure:
    """A figure that nothing can have, and the line that wrote it."""

    at: At
    message: str


def holds(faults: list[BadFigure], at: At, guard: Callable[[], object]) -> bool:
    """Whether the guard lets the figure pass; if not, the fault is noted."""
    try:
        guard()
    except Impossible as problem:
        faults.append(BadFigure(at, str(problem)))
        return False
    return True
