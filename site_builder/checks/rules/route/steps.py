"""The steps of a procedure by their numbers."""

from __future__ import annotations

from site_builder.notebook.model.procedure import Procedure, Step


def number_of(own: Procedure, wanted: Step | None) -> int | None:
    """The number of a step, counted from 0; an act within a step has the number of that step."""
    number = own.numbers.get(id(wanted))
    return None if number is None else number - 1
