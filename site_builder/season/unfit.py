"""What no day can hold: a piece that takes longer than anybody's day, and work for more hands than there are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from site_builder.season.problem import Problem, Work


@dataclass(frozen=True, slots=True)
class Unfit:
    """A work that cannot be laid on any day. It ``needs`` so many seconds in one day, or so many hands at once; the
    most that is ``there`` is less."""

    work: str
    kind: Literal["time", "hands"]
    needs: int
    there: int


def unfit(problem: Problem) -> Iterator[Unfit]:
    """Every such work. A plan carries no piece and no load over two days, so that there is none proves nothing."""
    hands = {hand.id: hand for hand in problem.hands}
    for work in problem.works:
        if not work.hands or not work.able or not work.pieces:
            continue
        people = {one.person for one in work.able} | set(work.helpers)
        if len(people) < work.hands:
            yield Unfit(work.id, "hands", work.hands, len(people))
        needs = work.setup + work.load_time + work.each
        there = max((hands[one.person].seconds[day] for one in work.able if one.person in hands
                     for day in _days(problem, work, one.first, one.last)), default=0)
        if 0 < there < needs:
            yield Unfit(work.id, "time", needs, there)


def _days(problem: Problem, work: Work, first: int, last: int) -> range:
    return range(max(work.first, first, 0), min(work.last, last, problem.days - 1) + 1)
