"""Every wait that `after` tells: which work waits for which, and from where to where within them."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from site_builder.checks.survey import Survey
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.small import After
from site_builder.notebook.references import Link, Target
from site_builder.quantity import Event

WHOLE = -1
"""Stands for the beginning of a procedure where its steps are counted from 0."""


class Order(NamedTuple):
    """One `after`: ``later`` waits for ``earlier``, both ids of procedures.

    ``begins`` is the number of the step that waits, ``ends`` that of the step that must be past: WHOLE for
    the beginning of the procedure, infinity for its end.
    """

    link: Link
    later: str
    earlier: str
    begins: float
    ends: float


def orders(survey: Survey) -> Iterator[Order]:
    """Every `after` that leads to a procedure or a step, in order."""
    for link in survey.references.links:
        if link.key != "done" or link.target is None or link.target.kind != "procedure":
            continue
        own, after, around = link.place.procedure, link.place.entry, link.place.parent
        if own is not None and isinstance(after, After) and around is not None:
            yield Order(link, link.place.owner_id, link.target.id, _number(own, around.step), _ends(after, link.target))


def _ends(after: After, target: Target) -> float:
    if target.step is not None:
        return _number(target.entry, target.step)
    moment = after.done.value
    return WHOLE if isinstance(moment, Event) and moment.edge == "start" else inf


def _number(own: object, wanted: Step | None) -> float:
    """The number of a step, acts within it included."""
    if wanted is None or not isinstance(own, Procedure):
        return WHOLE
    return next(n for n, step in enumerate(own.steps) if any(one is wanted for one in (step, *step.also)))
