"""A first plan by one plain rule, so that the search begins with something: in waves, everything as late as it may be.

The pieces go through the shop in waves. From the last wave and its last work backward, each is laid on the latest days
on which somebody able has time, those first who are least wanted elsewhere; where what comes before does not fit into
its window, the work behind it is laid a day earlier. It proves nothing, and may fail where a plan exists.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from random import Random
from typing import Any

from site_builder.season.problem import FULL_DOSE, Plan, Problem, Stint, Work
from site_builder.season.spans import in_order, may, most_pieces

_WAVES = (1, 8, 12, 24)
"""In how many waves it is tried, one after the other."""
_EARLIER = 18
"""How often a work of a wave may be laid earlier for the sake of what comes before it."""
_PATIENCE = 1000
"""How often works of one wave may be laid until the rule gives up."""
_TIGHT = 10
"""Days: what may wait no longer is laid at once behind the work that waits for it."""


def first_plan(problem: Problem, until: int, tries: int = 5, seed: int = 1) -> Plan | None:
    """A plan that ends by day ``until``, or None where the rule finds none. Raises ``Circle``."""
    chance = Random(seed)
    wanted = _wanted(problem)
    most = max((work.pieces for work in problem.works), default=1)
    for number in range(tries):
        order = _ordered(problem, chance if number >= len(_WAVES) else None)
        noise = 0.0 if number < len(_WAVES) else 0.5
        waves = min(_WAVES[number % len(_WAVES)], max(most // 2, 1))
        laying = _Backward(problem, until, {h: w * (1 + noise * chance.random()) for h, w in wanted.items()})
        plan = laying.laid(order, waves)
        if plan is not None:
            return plan
    return None


def _ordered(problem: Problem, chance: Random | None) -> tuple[Work, ...]:
    """The works, each before all that it waits for; first what has most before it, or is bound by a tight window."""
    heads = _heads(problem)
    left, found = list(reversed(in_order(problem))), []
    while left:
        ids = {one.id for one in left}
        free = [work for work in left
                if not any(link.before == work.id and link.after in ids for link in problem.links)]
        bound = [work for work in free if any(
            link.before == work.id and link.most is not None and link.most - link.least <= _TIGHT
            for link in problem.links)]
        noise = {work.id: 1.0 if chance is None else 0.6 + 0.8 * chance.random() for work in free}
        found.append(max(bound or free, key=lambda work: (heads[work.id] * noise[work.id], work.id)))
        left.remove(found[-1])
    return tuple(found)


def _heads(problem: Problem) -> Mapping[str, float]:
    """Of each work, about how many days must have passed when it is done, if its people did nothing else by half."""
    found: dict[str, float] = {}
    for work in in_order(problem):
        a_day = sum(sum(problem.hand(able.person).seconds) for able in work.able) / problem.days / 2
        own = work.pieces * work.each / a_day if a_day else 0.0
        found[work.id] = own + max((found[link.before] + link.least for link in problem.links
                                    if link.after == work.id), default=0.0)
    return found


def _wanted(problem: Problem) -> Mapping[str, float]:
    """Of each person how much of their time the work would take if all able shared it evenly."""
    found = {hand.id: 0.0 for hand in problem.hands}
    for work in problem.works:
        for able in work.able:
            found[able.person] += work.pieces * work.each / len(work.able)
    return {hand.id: found[hand.id] / max(sum(hand.seconds), 1) for hand in problem.hands}


class _Backward:
    def __init__(self, problem: Problem, until: int, wanted: Mapping[str, float]) -> None:
        self.problem, self.until, self.wanted = problem, until, wanted
        self.free = {hand.id: list(hand.seconds) for hand in problem.hands}
        self.machine = {machine.id: list(machine.seconds) for machine in problem.machines}
        self.dose: dict[tuple[str, int, str], int] = {}
        self.made = {work.id: [0] * problem.days for work in problem.works}
        """Pieces of each day."""
        self.so_far = {work.id: [work.pieces] * problem.days for work in problem.works}
        """By each day, if all that is not laid yet were done before."""
        self.stints: dict[tuple[int, str, str], Stint] = {}
        self.patience = 0

    def laid(self, order: Sequence[Work], waves: int) -> Plan | None:
        """The plan, each wave of each work laid behind what needs it; None where one does not fit."""
        ends = _boundaries(self.problem, order, waves)
        for wave in range(waves, 0, -1):
            self.patience = _PATIENCE
            if not self._wave(order, [(ends[work.id][wave - 1], ends[work.id][wave]) for work in order], 0):
                return None
        return tuple(sorted(self.stints.values()))

    def _wave(self, order: Sequence[Work], marks: Sequence[tuple[int, int]], number: int) -> bool:
        """Lay the works of a wave from this one on; if what comes before does not fit, this one earlier."""
        if number == len(order):
            return True
        work, (low, high) = order[number], marks[number]
        if low == high:
            return self._wave(order, marks, number + 1)
        kept = self._kept()
        cap = self.until
        for attempt in range(_EARLIER):
            self.patience -= 1
            if self.patience < 0:
                return False
            if not self._lay(work, low, high, cap):
                return False
            last = max(day for day, count in enumerate(self.made[work.id]) if count > kept[2][work.id][day])
            if self._wave(order, marks, number + 1):
                return True
            self._back_to(kept)
            cap = last - 1 - attempt // 3  # further and further, over an absence too
        return False

    def _kept(self) -> tuple[Any, ...]:
        return (*({key: list(days) for key, days in one.items()}
                  for one in (self.free, self.machine, self.made, self.so_far)), dict(self.dose), dict(self.stints))

    def _back_to(self, kept: tuple[Any, ...]) -> None:
        self.free, self.machine, self.made, self.so_far = (
            {key: list(days) for key, days in one.items()} for one in kept[:4])
        self.dose, self.stints = dict(kept[4]), dict(kept[5])

    def _lay(self, work: Work, low: int, high: int, cap: int) -> bool:
        """Lay the pieces of a work from the ``low``-th to the ``high``-th, none after day ``cap``."""
        due, oldest = self._due(work, low, high)
        made, left = self.made[work.id], high
        for day in range(cap, -1, -1):
            # so many must be done by the end of this day, since no more than those are due by the day before
            before = due[day - 1] if day else low
            must = left - max(before, low)
            if left > low and work.first <= day <= work.last:
                must = max(must, 0)
                if work.lots is not None:
                    lot = (left - low - 1) % _lot(work) + 1
                    must = lot if must >= lot else 0
                count = self._day(work, day, must, left - (oldest[day - 1] if day else 0))
                made[day] += count
                left -= count
        total, so_far = work.pieces, self.so_far[work.id]
        for day in range(self.problem.days - 1, -1, -1):
            so_far[day] = total
            total -= made[day]
        return left == low and all(
            need <= done <= may_be for done, need, may_be in zip(so_far, due, oldest, strict=True))

    def _due(self, work: Work, low: int, high: int) -> tuple[list[int], list[int]]:
        """By each day, how many must be done at least, and may be done at most, for what comes after."""
        days = self.problem.days
        due, most = [low] * days, [work.pieces] * days
        due[self.until:] = [high] * (days - self.until)
        for link in self.problem.links:
            if link.before != work.id:
                continue
            after = self.problem.work(link.after)
            rest, taken = after.pieces - link.there, self.so_far[after.id]
            if rest <= 0:
                continue
            for day in range(days):
                then = day - link.least
                need = taken[day] - link.there
                if need > 0:
                    wanted = work.pieces if link.whole else -(-need * work.pieces // rest)
                    if then < 0 and wanted > low:
                        due[0] = work.pieces + 1  # cannot be
                    elif then >= 0:
                        due[then] = max(due[then], wanted)
                if link.most is not None and day + link.most < days and day + link.most <= self.until:
                    allowed = (work.pieces * (taken[day + link.most] - link.there) + work.pieces - 1) // rest
                    most[day] = min(most[day], max(allowed, 0))
        laid = self.so_far[work.id]
        for day in range(days):
            due[day] = max(due[day], due[day - 1] if day else 0, laid[day] if laid[day] > high else 0)
        for day in range(days - 2, -1, -1):
            most[day] = min(most[day], most[day + 1])
        return due, [max(one, low) for one in most]  # what lies in earlier waves is looked at with them

    def _day(self, work: Work, day: int, must: int, forced: int) -> int:
        """Lay on a day what must be done by it; ``forced`` of it may not be earlier. Returns how many were laid."""
        if must <= 0 or (work.lots is not None and day not in work.lots.days):
            return 0
        laid = 0
        if not work.hands:
            if (day, "", work.id) in self.stints and work.lots is not None:
                return 0
            self._add(day, "", work.id, must, 0)
            return must
        if (work.hands > 1 or work.lots is not None) and self.made[work.id][day]:
            return 0
        able = [one for one in work.able if may(self.problem, one, day)]
        able.sort(key=lambda one: (self.wanted[one.person], one.person))
        for one in able:
            left = must - laid
            if left <= 0:
                break
            begun = self.stints.get((day, one.person, work.id))
            if begun is not None and work.load_time:
                continue
            count, helpers = self._fits(work, day, one.person, left, 0 if begun is not None else work.setup)
            seconds = _seconds(work, count) - (work.setup if begun is not None else 0)
            whole_day = min([most_pieces(work, self.problem.hand(one.person).seconds[day]), *(
                FULL_DOSE // (dose * work.each) for dose in work.doses.values() if dose * work.each)])
            worth = count == left or 2 * count >= whole_day or begun is not None
            small = work.lots is not None and count < min(work.lots.least, work.pieces)
            if count and (worth or forced > laid) and not (small and left > count):
                self._take(work, day, one.person, count, seconds, helpers)
                laid += count
                if work.hands > 1 or work.lots is not None:
                    break
        return laid

    def _fits(self, work: Work, day: int, person: str, count: int, setup: int) -> tuple[int, tuple[str, ...]]:
        room = work.setup - setup + min([self.free[person][day], *(self.machine[m][day] for m in work.machines)])
        helpers: tuple[str, ...] = ()
        if work.hands > 1:
            others = sorted((h for h in work.helpers if h != person and self.free[h][day] > 0),
                            key=lambda h: (-min(self.free[h][day], room), self.wanted[h], h))
            helpers = tuple(others[: work.hands - 1])
            if len(helpers) < work.hands - 1:
                return 0, ()
            room = min([room, *(self.free[h][day] for h in helpers)])
        count = min(count, most_pieces(work, room))
        if work.lots is not None and work.lots.most is not None:
            count = min(count, work.lots.most)
        for limit, dose in work.doses.items():
            for who in (person, *helpers):
                left = FULL_DOSE - self.dose.get((who, day, limit), 0)
                while count and dose * (work.each * count if who == person else _seconds(work, count)) > left:
                    count -= 1
        return count, helpers

    def _take(self, work: Work, day: int, person: str, count: int, seconds: int, helpers: tuple[str, ...]) -> None:
        self._add(day, person, work.id, count, seconds)
        for who in (person, *helpers):
            self.free[who][day] -= seconds
            for limit, dose in work.doses.items():
                key = (who, day, limit)
                self.dose[key] = self.dose.get(key, 0) + dose * (work.each * count if who == person else seconds)
        for machine in work.machines:
            self.machine[machine][day] -= seconds
        for who in helpers:
            self.stints[day, who, f"{work.id} helped"] = Stint(day, who, work.id, 0, seconds, leads=False)

    def _add(self, day: int, person: str, work: str, count: int, seconds: int) -> None:
        """A new stint, or more of one that was begun already."""
        old = self.stints.get((day, person, work), Stint(day, person, work, 0, 0))
        self.stints[day, person, work] = Stint(day, person, work, old.pieces + count, old.seconds + seconds)


def _boundaries(problem: Problem, order: Sequence[Work], waves: int) -> Mapping[str, list[int]]:
    """Of each work how many pieces lie before each end of a wave; enough for what comes after it."""
    found: dict[str, list[int]] = {}
    for work in order:
        ends = [work.pieces * wave // waves for wave in range(waves + 1)]
        after = [(problem.work(link.after), link) for link in problem.links if link.before == work.id]
        if after:
            ends = [0] * (waves + 1)
            for then, link in after:
                rest = then.pieces - link.there
                for wave in range(waves + 1):
                    need = found[then.id][wave] - link.there
                    if rest > 0 and need > 0:
                        ends[wave] = max(ends[wave], min(-(-need * work.pieces // rest), work.pieces))
        for link in problem.links:
            before = problem.work(link.before)
            if link.after == work.id and before.lots is not None and link.most is not None and before.pieces:
                ends = [_with_lot(work, before, end) for end in ends]  # what comes back together is taken together
        if any(link.whole for _, link in after):
            ends = [0] + [work.pieces] * waves
        if work.lots is not None:
            ends = [min(-(-end // _lot(work)) * _lot(work), work.pieces) for end in ends]
        ends[waves] = work.pieces
        found[work.id] = ends
    return found


def _with_lot(work: Work, before: Work, end: int) -> int:
    """The end of the lot in which this piece comes back."""
    lots = 0
    while work.pieces * min(lots * _lot(before), before.pieces) // before.pieces < end:
        lots += 1
    return work.pieces * min(lots * _lot(before), before.pieces) // before.pieces


def _lot(work: Work) -> int:
    """The size of lots that are as even as can be."""
    most = work.lots.most if work.lots is not None and work.lots.most else work.pieces
    return max(-(-work.pieces // max(-(-work.pieces // most), 1)), 1)


def _seconds(work: Work, count: int) -> int:
    loads = -(-count // work.load) if work.load and work.load_time else 0
    return work.setup + work.each * count + work.load_time * loads
