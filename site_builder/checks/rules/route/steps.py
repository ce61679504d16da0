"""The steps of a procedure by their numbers."""

from __future__ import annotations

from site_builder.notebook.model.procedure import Procedure, Step


def number_of(own: Procedure, wanted: Step | None) -> int | None:
    """The number of a step, counted from 0; an act within a step has the number of that step."""
    if wanted is None:
        return None
    return next((number for number, step in enumerate(own.steps) if _holds(step, wanted)), None)


def _holds(step: Step, wanted: Step) -> bool:
    return step is wanted or any(_holds(act, wanted) for act in step.also)
