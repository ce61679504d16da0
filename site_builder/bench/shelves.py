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
    """Everything of these kinds, by name."""
    for id_, tool in book.tools.items():
        if tool.KIND in kinds:
            yield Choice(id_, str(tool.title))
    if "material" in kinds:
        yield from (Choice(id_, str(one.title)) for id_, one in book.materials.items())
    if "part" in kinds:
        yield from (Choice(id_, str(one.title)) for id_, one in book.parts.items())
    if "skill" in kinds:
        yield from (Choice(id_, str(one.title)) for id_, one in book.skills.items())
