"""What can be chosen from the shelves of the notebook."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.bench.choice import Choice
from site_builder.notebook.kinds import TABLE
from site_builder.notebook.notebook import Notebook


def shelf_choices(book: Notebook, kinds: Sequence[str]) -> Iterator[Choice]:
    """Everything of these kinds, by name; ``tool`` is every kind of tool. Who has left is not chosen."""
    for kind in TABLE:
        if kind.shelf is not None and (kind.key in kinds or kind.shelf.noun in kinds):
            shelf = book.living if kind.shelf.noun == "person" else book.shelves.get(kind.shelf.noun, {})
            for id_, one in shelf.items():
                if type(one) is kind.model:
                    yield Choice(id_, str(getattr(one, "title", None) or getattr(one, "name", id_)))
    if "customer" in kinds and book.shop is not None:
        yield from (Choice(str(id_), str(one.title)) for id_, one in book.shop.customers.items())
