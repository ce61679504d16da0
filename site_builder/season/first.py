"""A first plan by one plain rule, so that the search begins with something: everything as late as it may be.

From the last work backward, each is laid on the latest days on which somebody able has time, those first who are
least wanted elsewhere. What is made late waits little, so that windows are kept. It proves nothing, and may fail
where a plan exists.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil
from random import Random

from site_builder.season.problem import FULL_DOSE, Plan, Problem, Stint, Work
from site_builder.season.spans import in_order, may, most_pieces

_TIGHT = 5
"""Days: what may wait no longer is laid at once behind the work that waits for it."""


def first_plan(problem: Problem, until: int, tries: int = 40, seed: int = 1) -> Plan | None:
    """A plan that ends by day ``until``, or None where the rule finds none. Raises ``Circle``."""
    plain = _ordered(problem, None)
    chance = Random(seed)
    wanted = _wanted(problem)
    for number in range(tries):
        noise = 0.0 if not number else 0.1 + number / tries
        pace = 0.35 if not number else 0.15 + 0.45 * chance.random()
        laying = _Backward(problem, until, {h: w * (1 + noise * chance.random()) for h, w in wanted.items()}, pace)
        plan = laying.laid(plain if not number else _ordered(problem, chance))
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
            link.before == work.id and link.most is not None and link.most <= _TIGHT for link in problem.links)]
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
    def __init__(self, problem: Problem, until: int, wanted: Mapping[str, float], pace: float) -> None:
        self.problem, self.until, self.wanted, self.pace = problem, until, wanted, pace
        self.free = {hand.id: list(hand.seconds) for hand in problem.hands}
        self.machine = {machine.id: list(machine.seconds) for machine in problem.machines}
        self.dose: dict[tuple[str, int, str], int] = {}
        self.made: dict[str, list[int]] = {}
        self.stints: list[Stint] = []

    def laid(self, order: Sequence[Work]) -> Plan | None:
        for work in order:
            if not self._lay(work):
                return None
        return tuple(sorted(self.stints))

    def _lay(self, work: Work) -> bool:
        due, oldest = self._due(work)
        made = [0] * self.problem.days
        left = work.pieces
        for day in range(self.until, -1, -1):
            # so many must be done by the end of this day, since no more than those are due by the day before
            must = left - (due[day - 1] if day else 0)
            if left and work.first <= day <= work.last:
                must = min(max(must, 0), self._pace(work, day))
                if work.lots is not None and must:
                    must = min(max(must, work.lots.least), left, work.lots.most or left)
                made[day] = self._day(work, day, must, left - (oldest[day - 1] if day else 0))
                left -= made[day]
            if left > (due[day - 1] if day else 0) and day == 0:
                return False
        so_far, total = [], 0
        for count in made:
            total += count
            so_far.append(total)
        self.made[work.id] = so_far
        return left == 0 and all(done >= need for done, need in zip(so_far, due, strict=True)) and all(
            done <= may_be for done, may_be in zip(so_far, oldest, strict=True))

    def _due(self, work: Work) -> tuple[list[int], list[int]]:
        """By each day, how many must be done at least, and may be done at most, for what comes after."""
        days = self.problem.days
        due, most = [0] * days, [work.pieces] * days
        due[self.until:] = [work.pieces] * (days - self.until)
        for link in self.problem.links:
            if link.before != work.id:
                continue
            after = self.problem.work(link.after)
            rest, taken = after.pieces - link.there, self.made[after.id]
            if rest <= 0:
                continue
            for day in range(days):
                then = day - link.least
                need = taken[day] - link.there
                if need > 0:
                    wanted = work.pieces if link.whole else -(-need * work.pieces // rest)
                    if then < 0:
                        due[0] = work.pieces + 1  # cannot be
                    else:
                        due[then] = max(due[then], wanted)
                if link.most is not None and day + link.most < days and day + link.most <= self.until:
                    allowed = (work.pieces * (taken[day + link.most] - link.there) + work.pieces - 1) // rest
                    most[day] = min(most[day], max(allowed, 0))
        for day in range(1, days):
            due[day] = max(due[day], due[day - 1])
        for day in range(days - 2, -1, -1):
            most[day] = min(most[day], most[day + 1])
        return due, most

    def _pace(self, work: Work, day: int) -> int:
        """How many may be done on a day so that what comes before can keep up within its window."""
        most = work.pieces
        if any(link.after == work.id and link.most is not None and link.most - link.least <= 1
               for link in self.problem.links):
            rooms = [int(self.pace * self.free[able.person][day]) for able in work.able]
            most = sum(most_pieces(work, room) for room in rooms)
        for link in self.problem.links:
            if link.after == work.id and link.most is not None:
                before = self.problem.work(link.before)
                if not before.pieces or not before.hands:
                    continue
                could = sum(
                    most_pieces(before, self.free[able.person][then])
                    for then in range(max(day - link.most, 0), day - link.least + 1)
                    for able in before.able
                    if before.lots is None or then in before.lots.days if may(self.problem, able, then)
                )
                could = could * work.pieces // before.pieces
                shared = 1 if work.lots is not None else link.most - link.least + 1
                most = min(most, ceil(self.pace * could / shared))
        return most

    def _day(self, work: Work, day: int, must: int, forced: int) -> int:
        """Lay on a day what must be done by it; ``forced`` of it may not be earlier. Returns how many were laid."""
        if must <= 0 or (work.lots is not None and day not in work.lots.days):
            return 0
        laid = 0
        if not work.hands:
            self.stints.append(Stint(day, "", work.id, must, 0))
            return must
        able = [one for one in work.able if may(self.problem, one, day)]
        able.sort(key=lambda one: (self.wanted[one.person], one.person))
        for one in able:
            left = must - laid
            if left <= 0:
                break
            count, helpers = self._fits(work, day, one.person, left)
            seconds = _seconds(work, count)
            whole_day = most_pieces(work, self.problem.hand(one.person).seconds[day])
            worth = count == left or 2 * count >= whole_day
            small = work.lots is not None and count < min(work.lots.least, work.pieces)
            if count and (worth or forced > laid) and not (small and left > count):
                self._take(work, day, one.person, count, seconds, helpers)
                laid += count
                if work.hands > 1 or work.lots is not None:
                    break
        return laid

    def _fits(self, work: Work, day: int, person: str, count: int) -> tuple[int, tuple[str, ...]]:
        room = min([self.free[person][day], *(self.machine[m][day] for m in work.machines)])
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
        self.stints.append(Stint(day, person, work.id, count, seconds))
        for who in (person, *helpers):
            self.free[who][day] -= seconds
            for limit, dose in work.doses.items():
                key = (who, day, limit)
                self.dose[key] = self.dose.get(key, 0) + dose * (work.each * count if who == person else seconds)
        for machine in work.machines:
            self.machine[machine][day] -= seconds
        self.stints += [Stint(day, who, work.id, 0, seconds, leads=False) for who in helpers]


def _seconds(work: Work, count: int) -> int:
    loads = -(-count // work.load) if work.load and work.load_time else 0
    return work.setup + work.each * count + work.load_time * loads
