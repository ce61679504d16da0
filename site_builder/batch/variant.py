"""What holds for the variant in hand: entries whose `for` speaks of another one fall away."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

from site_builder.notebook.conditions import exclude
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.shop import Order
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.ways import as_condition, can_hold_together, row_of

E = TypeVar("E", bound=Entry)


def chosen_for(nb: Notebook, product: str, order: Order | None = None) -> dict[str, str]:
    """Dimension to value: what the product is, what the customer gets, what the order says, the last before all."""
    part = nb.parts.get(product)
    chosen = dict(part.chosen) if part is not None else {}
    if order is not None:
        customer = nb.shop.customers.get(order.customer) if nb.shop is not None and order.customer else None
        chosen |= dict(customer.chosen) if customer is not None else {}
        chosen |= dict(order.chosen)
    customer_told = {"customer": str(order.customer)} if order is not None and order.customer is not None else {}
    return {"product": product, **customer_told, **{str(name): str(value) for name, value in chosen.items()}}


def holding(entries: Iterable[E], chosen: Mapping[str, str]) -> tuple[E, ...]:
    """The entries that may hold for what is chosen; what nobody chose excludes nothing."""
    told = tuple(entries)
    if not any(entry.for_ for entry in told):
        return told
    condition = as_condition(chosen)
    return tuple(entry for entry in told if not exclude(entry.for_, condition))


def cells_holding(limit: Limit, chosen: Mapping[str, str]) -> tuple[Limit, ...]:
    """The value of a limit, or the cells of its table, that may hold for what is chosen."""
    condition = as_condition(chosen)
    return tuple(cell for rows, cell in limit.cells() if can_hold_together(condition, row_of(limit, rows, cell)))


def steps_holding(own: Procedure, chosen: Mapping[str, str]) -> Iterator[Step]:
    """The steps that may hold for what is chosen, each followed by the acts within it; then those of the whole."""
    for step in holding(own.steps, chosen):
        yield step
        yield from holding(step.also, chosen)
    yield from holding(own.also, chosen)


def works_holding(nb: Notebook, own: Procedure, chosen: Mapping[str, str]) -> tuple[tuple[Work, ...], ...]:
    """The work that may hold, ring by ring: the whole; its steps; the shared work that these use, with its steps."""
    steps = tuple(steps_holding(own, chosen))
    shared: dict[str, list[Work]] = {}
    todo = list(steps)
    while todo:
        used = nb.procedures.get(str(todo.pop().use))
        if used is None or used is own or str(used.procedure) in shared or not holding((used,), chosen):
            continue
        inside = list(steps_holding(used, chosen))
        shared[str(used.procedure)] = [used, *inside]
        todo += inside
    return (own,), steps, tuple(work for works in shared.values() for work in works)
