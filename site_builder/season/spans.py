"""On which days each work can be done at all, by what must come before and after it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from site_builder.season.problem import Able, Problem, Work


class Days(NamedTuple):
    """First and last day of a work, both in it."""

    first: int
    last: int


class Circle(Exception):
    """Work that must wait for itself; ``works`` are the ids on the circle."""

    def __init__(self, works: tuple[str, ...]) -> None:
        super().__init__(f"these wait for each other: {', '.join(works)}")
        self.works = works


def in_order(problem: Problem) -> tuple[Work, ...]:
    """The works, each after all that it waits for. Raises ``Circle``."""
    waiting = {work.id: {link.before for link in problem.links if link.after == work.id} for work in problem.works}
    order: list[Work] = []
    left = list(problem.works)
    while left:
        ready = [work for work in left if not waiting[work.id] & {one.id for one in left}]
        if not ready:
            raise Circle(tuple(work.id for work in left))
        order += ready
        left = [work for work in left if work not in ready]
    return tuple(order)


def spans(problem: Problem, until: int) -> Mapping[str, Days]:
    """The days of each work if all is to be done on day ``until`` at the latest; a span may be empty."""
    order = in_order(problem)
    first = {work.id: max(work.first, 0) for work in order}
    last = {work.id: min(work.last, until) for work in order}
    for work in order:
        for link in problem.links:
            if link.before == work.id and not link.there:
                first[link.after] = max(first[link.after], first[work.id] + link.least)
    for work in reversed(order):
        for link in problem.links:
            if link.before == work.id and problem.work(link.after).pieces > link.there:
                last[work.id] = min(last[work.id], last[link.after] - link.least)
    return {work.id: Days(first[work.id], last[work.id]) for work in order}


def may(problem: Problem, able: Able, day: int) -> bool:
    """Whether this person may do that work on a day: able by then, and somebody who teaches around if need be."""
    if not able.first <= day <= able.last:
        return False
    return not able.teachers or any(hand.around[day] for hand in problem.hands if hand.id in able.teachers)


def most_pieces(work: Work, seconds: int) -> int:
    """How many pieces of a work fit into so many seconds of one person, setting up in it."""
    left = seconds - work.setup
    if left < 0:
        return 0
    if not work.load_time or not work.load:
        return work.pieces if not work.each else min(work.pieces, left // work.each)
    best = 0
    loads = 1
    while loads * work.load_time <= left and best < work.pieces:
        room = left - loads * work.load_time
        fit = loads * work.load if not work.each else min(loads * work.load, room // work.each)
        if fit <= best and loads > 1:
            break
        best = max(best, fit)
        loads += 1
    return min(best, work.pieces)
