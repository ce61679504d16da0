"""What the sentences of a telling suggest, with the names and the scale of this notebook."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.notebook import Notebook
from site_builder.tellings.cue import Cue
from site_builder.tellings.kinds import Understood, understand


def understood(analysis: Analysis, cues: Sequence[Cue]) -> tuple[Understood, ...]:
    """All cues of a telling, read together."""
    return understand(cues, names_of(analysis.notebook), scale_of(analysis))


def names_of(notebook: Notebook) -> dict[str, tuple[str, ...]]:
    """What tools and materials are called, by id: their titles, and the ids in words."""
    return {id_: tuple(dict.fromkeys((str(thing.title), id_.replace("-", " "))))
            for id_, thing in notebook.things.items()}


def scale_of(analysis: Analysis) -> str:
    """The scale in which the shop writes temperatures, where it writes all in one; else empty."""
    found = {unit for value, _, _ in analysis.index.values for unit in ("°C", "°F") if unit in str(value.text)}
    return found.pop() if len(found) == 1 else ""
