"""The narrow place, the smallest set of wishes that cannot all be kept, and what would help: all solved again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from site_builder.season.problem import Able, Hand, Problem
from site_builder.season.relax import Loose, More, day_of

EIGHT_HOURS = 8 * 3_600
_LEAST = 0.01


@dataclass(frozen=True, slots=True)
class Narrow:
    """Eight hours more of this bring the end nearer by so many ``days``."""

    more: More
    days: float


def kinds_of_hands(problem: Problem) -> tuple[tuple[str, ...], ...]:
    """Works grouped by who may do them: the same people make one kind of hands."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for work in problem.works:
        if work.hands and work.pieces:
            groups.setdefault(tuple(sorted(able.person for able in work.able)), []).append(work.id)
    return tuple(tuple(ids) for ids in groups.values())


def narrow(problem: Problem, groups: Sequence[Sequence[str]], end: float | None = None) -> tuple[Narrow, ...]:
    """What brings the end nearer, the most first, by the loosened season solved again with the hours added.

    ``groups`` are works that one new pair of hands could do, a skill each; ``end`` is the end of the loosened season if
    it is known already. Nothing where it cannot be done at all.
    """
    mores = [More(EIGHT_HOURS, person=hand.id) for hand in problem.hands]
    mores += [More(EIGHT_HOURS, machine=machine.id) for machine in problem.machines]
    mores += [More(EIGHT_HOURS, works=tuple(group)) for group in groups]
    end = Loose(problem).earliest() if end is None else end
    if end is None:
        return ()
    loose = Loose(problem.until(day_of(end)), mores)
    found = []
    for more in loose.may_help(end):
        sooner = loose.earliest(more, below=end)
        if sooner is not None and end - sooner > _LEAST:
            found.append(Narrow(more, round(end - sooner, 2)))
    return tuple(sorted(found, key=lambda one: (
        -one.days, one.more.works, one.more.person or "", one.more.machine or "")))


@dataclass(frozen=True, slots=True)
class Wish:
    """A wish, and what the season is when it is let go; ``name`` is for the reader."""

    name: str
    let_go: Callable[[Problem], Problem]


def smallest(problem: Problem, due: int, wishes: Sequence[Wish]) -> tuple[str, ...] | None:
    """A set of wishes that cannot all be kept by day ``due`` and of which none can be left out; None where all can.

    Each wish in turn is let go for good where the rest is impossible still, as far as hours tell. Empty where it is
    impossible whatever is let go.
    """
    problem = problem.until(due)
    if Loose(problem).share(problem.days - 1) is not None:
        return None
    needed = []
    for wish in wishes:
        freed = wish.let_go(problem)
        if Loose(freed).share(freed.days - 1) is None:
            problem = freed
        else:
            needed.append(wish.name)
    return tuple(needed)


def without(problem: Problem, person: str, first: int, last: int) -> Problem:
    """The season with a person away from day ``first`` to ``last``."""
    return replace(problem, hands=tuple(_away(hand, first, last) if hand.id == person else hand
                                        for hand in problem.hands))


def _away(hand: Hand, first: int, last: int) -> Hand:
    days = range(len(hand.seconds))
    return Hand(hand.id, tuple(0 if first <= day <= last else hand.seconds[day] for day in days),
                tuple(hand.around[day] and not first <= day <= last for day in days))


def machine_down(problem: Problem, machine: str, first: int, last: int) -> Problem:
    """The season with a machine out of order from day ``first`` to ``last``."""
    return replace(problem, machines=tuple(
        replace(one, seconds=tuple(0 if first <= day <= last else left for day, left in enumerate(one.seconds)))
        if one.id == machine else one for one in problem.machines))


def with_more(problem: Problem, person: str, seconds: int) -> Problem:
    """The season with ``seconds`` more on each day on which a person works anyway."""
    return replace(problem, hands=tuple(
        replace(hand, seconds=tuple(left + seconds if left else 0 for left in hand.seconds))
        if hand.id == person else hand for hand in problem.hands))


def taught(problem: Problem, person: str, works: Sequence[str], first: int) -> Problem:
    """The season in which a person may do these works alone from day ``first`` on."""
    return replace(problem, works=tuple(
        replace(work, able=(*(one for one in work.able if one.person != person), Able(person, first)))
        if work.id in works else work for work in problem.works))
