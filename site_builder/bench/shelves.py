"""What can be chosen from the shelves of the notebook."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.bench.choice import Choice
from site_builder.notebook.notebook import Notebook

KIND_WORDS = {
    "machine": "a machine", "hand-tool": "a hand tool", "gauge": "a gauge", "tooling": "tooling that wears",
    "protection": "protection", "sample": "a reference piece", "material": "a material", "part": "a part",
    "skill": "a skill",
}


def shelf_choices(book: Notebook, kinds: Sequence[str]) -> Iterator[Choice]:
    """Everything of these kinds, by name; ``tool`` is every kind of tool."""
    for id_, tool in book.tools.items():
        if tool.KIND in kinds or "tool" in kinds:
            yield Choice(id_, str(tool.title))
    shelves = (("material", book.materials), ("part", book.parts), ("skill", book.skills),
               ("procedure", book.procedures), ("order", book.orders), ("change", book.changes),
               ("customer", book.shop.customers if book.shop is not None else {}))
    for kind, shelf in shelves:
        if kind in kinds:
            yield from (Choice(str(id_), str(one.title)) for id_, one in shelf.items())
    if "person" in kinds:
        yield from (Choice(id_, str(one.name)) for id_, one in book.living.items())
