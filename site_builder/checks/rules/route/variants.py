"""The dimensions of the work: where each is declared, what its values are, who chooses it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.shop import Customer, Order, OrderShare, Part, Shop
from site_builder.notebook.model.small import Variant
from site_builder.notebook.tree import Text


class Declared(NamedTuple):
    """A dimension where it is declared: under `variants`, or by a step's `finds`.

    ``values`` are those written here; ``owner`` is the id of the procedure, empty for the whole shop.
    """

    name: Text
    owner: str
    values: tuple[Text, ...]
    variant: Variant | None
    step: Step | None


def declared(analysis: Analysis) -> Mapping[str, tuple[Declared, ...]]:
    """By name, every place at which a dimension is declared."""
    found: dict[str, list[Declared]] = defaultdict(list)
    for one in _declared(analysis):
        found[one.name].append(one)
    return {name: tuple(places) for name, places in found.items()}


def _declared(analysis: Analysis) -> Iterator[Declared]:
    for variant, place in analysis.index.of(Variant):
        if place.name is not None:
            owner = "" if isinstance(place.owner, Shop) else place.owner_id
            yield Declared(place.name, owner, variant.values, variant, None)
    finding = {id(around.entry): around for _, place in analysis.index.of(Check)
               if place.key == "finds" and (around := place.parent) is not None}
    for place in finding.values():
        if isinstance(place.entry, Work) and isinstance(place.owner, Procedure):
            for name, values in place.entry.finds.items():
                yield Declared(name, place.owner_id, tuple(values), None, place.step)


def chosen(analysis: Analysis) -> Iterator[tuple[Text, Text, Place]]:
    """Every dimension that an order, a customer or a part has a value of: name, value, place."""
    kinds = (Order, OrderShare, Customer, Part)
    for place in (place for kind in kinds for place in analysis.index.places.get(kind, ())):
        if isinstance(place.entry, Order | OrderShare | Customer | Part):
            yield from ((name, value, place) for name, value in place.entry.chosen.items())


def needed(analysis: Analysis) -> Iterator[tuple[Text, tuple[Text, ...], Place]]:
    """Every name in a `for`, with its values and the entry that holds only then."""
    for place in analysis.index.conditioned:
        for choice in place.entry.for_:
            for name, values in choice.items():
                yield name, values, place
