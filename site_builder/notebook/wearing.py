"""What is worn all the way through a piece of work, and what only with one of its things or at one of its steps."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass

from site_builder.notebook.gather import named_things, wear_of, works
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Machine
from site_builder.notebook.notebook import Notebook


@dataclass(frozen=True, slots=True)
class Worn:
    """Protection that is worn together: with some things and at some steps, or with neither all the way through."""

    protection: tuple[str, ...]
    things: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()


def worn_for(nb: Notebook, own: Procedure) -> tuple[Worn, ...]:
    """What is worn for a piece of work: all the way through, then with things and at steps of its own.

    A hazard of the whole work and a machine at which the whole work is done ask for it all the way through; any
    other tool and a material only while it is in the hands: gloves for the spirit are none for the lathe.
    """
    rank = {str(found.item): number for number, found in enumerate(wear_of(nb, own))}
    throughout, things, steps = _cases(nb, own)
    for worn in rank:
        at = [worn in asked for asked in steps]
        if (len(at) > 1 and all(at)) or not (any(at) or any(worn in asked for asked in things.values())):
            throughout.add(worn)

    def sorted_set(asked: Iterable[str]) -> tuple[str, ...]:
        return tuple(sorted(set(asked), key=lambda worn: rank.get(worn, len(rank))))

    cases: dict[tuple[str, ...], tuple[list[str], list[Step]]] = defaultdict(lambda: ([], []))
    for id_, asked in things.items():
        cases[sorted_set(asked - throughout)][0].append(id_)
    for step, asked in zip(own.steps, steps, strict=True):
        cases[sorted_set(asked - throughout)][1].append(step)
    told = [Worn(sorted_set(throughout)),
            *(Worn(worn, tuple(ids), tuple(found)) for worn, (ids, found) in cases.items())]
    return tuple(one for one in told if one.protection)


def _cases(nb: Notebook, own: Procedure) -> tuple[set[str], dict[str, set[str]], list[set[str]]]:
    """What is asked for all the way through, by each of the things, and at each of the steps."""
    whole: tuple[Work, ...] = (own, *(work for act in own.also for work in _within(nb, act)))
    named = dict.fromkeys(id_ for work in whole for id_ in named_things(work))
    throughout = {worn for work in whole for worn in _of_hazards(work.hazards)}
    only_for = {str(use.tool) for use in own.tools if use.for_}
    things: dict[str, set[str]] = {}
    for id_ in named:
        if isinstance(nb.things.get(id_), Machine) and id_ not in only_for:
            throughout.update(_of_thing(nb, id_))
        else:
            things[id_] = set(_of_thing(nb, id_))
    steps = [{worn for work in _within(nb, step) for worn in _asked(nb, work, named)} for step in own.steps]
    return throughout, things, steps


def _asked(nb: Notebook, work: Work, but: Container[str]) -> Iterator[str]:
    """What a single piece of work asks for, by its hazards and its things, but for some of those."""
    yield from _of_hazards(work.hazards)
    for id_ in named_things(work):
        if id_ not in but:
            yield from _of_thing(nb, id_)


def _within(nb: Notebook, step: Step) -> Iterator[Work]:
    """The step, the acts within it, and all the shared work that is done at it."""
    for one in (step, *step.also):
        yield one
        shared = nb.procedures.get(one.use) if one.use is not None else None
        if shared is not None:
            yield from works(nb, shared)


def _of_hazards(hazards: Iterable[Hazard]) -> Iterator[str]:
    return (str(id_) for hazard in hazards for id_ in hazard.wear)


def _of_thing(nb: Notebook, id_: str) -> Iterator[str]:
    """What a thing and the groups it belongs to ask for."""
    for one in (id_, *nb.groups.get(id_, ())):
        thing = nb.things.get(one)
        if thing is not None:
            yield from _of_hazards(thing.hazards)
            yield from map(str, thing.wear)
