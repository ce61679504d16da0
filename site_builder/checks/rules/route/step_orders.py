"""Circles among the steps of one procedure: by what is written, and by standing one below the other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.route.orders import WHOLE, Order, orders
from site_builder.notebook.circles import circles
from site_builder.notebook.model.procedure import Procedure


class Wait(NamedTuple):
    """Why a step waits: for what it names, or (None) for the step above it."""

    order: Order | None


def step_circles(analysis: Analysis) -> Iterator[tuple[Wait, ...]]:
    """Every circle of steps that wait for each other."""
    inside: dict[str, list[Order]] = defaultdict(list)
    for order in orders(analysis):
        if order.later == order.earlier and order.begins > WHOLE and _by_itself(order):
            inside[order.later].append(order)
    for id_, written in inside.items():
        yield from circles(_waits(analysis.notebook.procedures[id_], written))


def _by_itself(order: Order) -> bool:
    """Whether the step waits as a whole, not an act within it, for a step."""
    around, target = order.link.place.parent, order.link.target
    return around is not None and around.key == "steps" and target is not None and target.step is not None


def _waits(own: Procedure, written: Sequence[Order]) -> dict[int, list[tuple[int, Wait]]]:
    """A step without `after` and without a time of its own waits for the step above it."""
    found: dict[int, list[tuple[int, Wait]]] = {
        number: [(number - 1, Wait(None))] if number and not step.after and step.when is None else []
        for number, step in enumerate(own.steps)
    }
    for order in written:
        found[int(order.begins)].append((int(order.ends), Wait(order)))
    return found
