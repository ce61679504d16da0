"""All figures of a notebook, by the thing they are about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping

from site_builder.figures.figure import Figure, Missing
from site_builder.figures.known import Known

Chapter = Callable[[Known], Iterator[Figure | Missing]]

CHAPTERS: tuple[Chapter, ...] = ()
"""Each goes once through the notebook and yields what its part of the trade can tell."""


def figures_of(known: Known) -> Mapping[tuple[str, str], tuple[Figure | Missing, ...]]:
    """(kind, id) to the figures shown on that thing's page, in the order of the chapters."""
    found: dict[tuple[str, str], list[Figure | Missing]] = defaultdict(list)
    for chapter in CHAPTERS:
        for figure in chapter(known):
            found[figure.kind, figure.id].append(figure)
    return {key: tuple(figures) for key, figures in found.items()}
