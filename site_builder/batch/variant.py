"""What holds for the variant in hand: entries whose `for` speaks of another one fall away."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from site_builder.notebook.conditions import exclude
from site_builder.notebook.model.entry import Condition, Entry
from site_builder.notebook.model.shop import Order
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.tree import Text

E = TypeVar("E", bound=Entry)


def chosen_for(nb: Notebook, product: str, order: Order | None = None) -> dict[str, str]:
    """Dimension to value: what the product is, what the customer gets, what the order says, the last before all."""
    part = nb.parts.get(product)
    chosen = dict(part.chosen) if part is not None else {}
    if order is not None:
        customer = nb.shop.customers.get(order.customer) if nb.shop is not None and order.customer else None
        chosen |= dict(customer.chosen) if customer is not None else {}
        chosen |= dict(order.chosen)
    return {"product": product, **{str(name): str(value) for name, value in chosen.items()}}


def holding(entries: Iterable[E], chosen: Mapping[str, str]) -> tuple[E, ...]:
    """The entries that may hold for what is chosen; what nobody chose excludes nothing."""
    told = tuple(entries)
    if not any(entry.for_ for entry in told):
        return told
    condition = as_condition(chosen)
    return tuple(entry for entry in told if not exclude(entry.for_, condition))


def as_condition(chosen: Mapping[str, str]) -> Condition:
    """What is chosen, as a `for` would say it."""
    return ({Text(name): (Text(value),) for name, value in chosen.items()},) if chosen else ()
