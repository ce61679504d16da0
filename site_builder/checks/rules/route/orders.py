"""Every wait that `after` tells: which work waits for which, and from where to where within them."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.route.steps import number_of
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


def orders(analysis: Analysis) -> Iterator[Order]:
    """Every `after` that leads to a procedure or a step, in order."""
    for link in analysis.references.links:
        if link.key != "done" or link.target is None or link.target.kind != "procedure":
            continue
        own, after, around = link.place.procedure, link.place.entry, link.place.parent
        if own is not None and isinstance(after, After) and around is not None:
            yield Order(link, link.place.owner_id, link.target.id, _begins(own, around.step), _ends(after, link.target))


def _begins(own: Procedure, step: Step | None) -> float:
    number = number_of(own, step)
    return WHOLE if number is None else number


def _ends(after: After, target: Target) -> float:
    number = number_of(target.entry, target.step) if isinstance(target.entry, Procedure) else None
    if number is not None:
        return number
    moment = after.done.value
    return WHOLE if isinstance(moment, Event) and moment.edge == "start" else inf
