"""Questions about tools and materials: one shape for all the keys that may be missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Check
from site_builder.notebook.finding import Found
from site_builder.notebook.model.things import Thing

T = TypeVar("T", bound=Thing)


def asks_of(
    kinds: tuple[type[Thing], ...], key: str, *, question: str, fix: str,
    worth: Callable[[Thing], bool] = lambda _thing: True,
) -> Check:
    """A check that asks for a key of every thing of these kinds without it; ``{}`` is its title."""

    def check(analysis: Analysis) -> Iterator[Found]:
        for thing, id_ in untold(analysis, kinds, key):
            if worth(thing):
                yield Found(thing.title.at, question.format(f"“{thing.title}”"), fix, id_)

    return check


def untold(analysis: Analysis, kinds: tuple[type[T], ...], key: str) -> Iterator[tuple[T, str]]:
    """The things that do not have the key, with their ids.

    An empty list is an answer, a key with nothing after it a question already. A group speaks for its
    members and is not asked itself; what a group says is said of its members.
    """
    things, groups = analysis.notebook.things, analysis.notebook.groups
    for kind in kinds:
        for thing, place in analysis.index.of(kind):
            told = thing.model_fields_set
            if key in told or key in thing.asked or thing.members:
                continue
            if not any(key in things[group].model_fields_set for group in groups.get(place.owner_id, ())):
                yield thing, place.owner_id
