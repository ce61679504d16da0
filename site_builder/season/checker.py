"""Whether a plan can be lived by people: every rule of the season looked up in the plan itself.

It shares nothing with the models that make plans, so that an error in them shows here. It takes the plan day by day,
counts, and names each rule that is broken with work, person and day.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from site_builder.season.problem import FULL_DOSE, Link, Plan, Problem, Stint, Work


class Rule(Enum):
    """What a plan can break."""

    KNOWN = "names somebody or something that is not there"
    SENSE = "a stint is of no pieces, or takes other time than its work needs"
    ABLE = "done by somebody who may not do it"
    ALONE = "within call of nobody"
    HANDS = "too few hands at once"
    TWICE = "one person twice at the same work"
    HOURS = "more hours than the person has"
    MACHINE = "more hours than the machine has"
    DOSE = "more than the body may take in a day"
    DAYS = "outside the days of the work"
    LOT = "a lot of the wrong size, or on a day on which none is taken in"
    CAME = "worked before it came"
    LATE = "left too long"
    WHOLE = "begun before all was done"
    ENOUGH = "not all is done, or more than was to do"


@dataclass(frozen=True, slots=True)
class Broken:
    """A rule that a plan breaks: by how much, where, and on which day. ``who`` is a person, a machine or empty."""

    rule: Rule
    work: str
    who: str
    day: int
    told: float
    allowed: float


def check(problem: Problem, plan: Plan) -> tuple[Broken, ...]:
    """Everything that is broken; nothing where the plan can be lived."""
    unknown = list(_unknown(problem, plan))
    if unknown:
        return tuple(unknown)
    book = _Book(problem, plan)
    return (*book.stints(), *book.people(), *book.machines(), *book.together(), *book.lots(), *book.flow())


def _unknown(problem: Problem, plan: Plan) -> Iterator[Broken]:
    works = {work.id: work for work in problem.works}
    people = {hand.id for hand in problem.hands}
    for stint in plan:
        work = works.get(stint.work)
        if work is None or not 0 <= stint.day < problem.days or (stint.person not in people and (
                stint.person != "" or work.hands)):
            yield Broken(Rule.KNOWN, stint.work, stint.person, stint.day, 1, 0)


class _Book:
    def __init__(self, problem: Problem, plan: Plan) -> None:
        self.problem, self.plan = problem, plan
        self.works = {work.id: work for work in problem.works}
        self.hands = {hand.id: hand for hand in problem.hands}

    def stints(self) -> Iterator[Broken]:
        """Each stint by itself: time, days, who may do it."""
        for stint in self.plan:
            work = self.works[stint.work]
            if stint.leads:
                needs = _time_needed(work, stint.pieces)
                if stint.pieces < 1 or stint.seconds < needs:
                    yield Broken(Rule.SENSE, work.id, stint.person, stint.day, stint.seconds, needs)
                if work.hands:
                    yield from self._allowed(work, stint)
            elif stint.person not in work.helpers:
                yield Broken(Rule.ABLE, work.id, stint.person, stint.day, 1, 0)
            if not work.first <= stint.day <= work.last:
                yield Broken(Rule.DAYS, work.id, stint.person, stint.day, stint.day, work.first)

    def _allowed(self, work: Work, stint: Stint) -> Iterator[Broken]:
        grants = [one for one in work.able if one.person == stint.person and one.first <= stint.day <= one.last]
        if not grants:
            yield Broken(Rule.ABLE, work.id, stint.person, stint.day, 1, 0)
        elif not any(not one.teachers or any(self.hands[t].around[stint.day] for t in one.teachers) for one in grants):
            yield Broken(Rule.ALONE, work.id, stint.person, stint.day, 0, 1)

    def people(self) -> Iterator[Broken]:
        """Hours and doses of each person and day."""
        days: dict[tuple[str, int], list[Stint]] = defaultdict(list)
        for stint in self.plan:
            if stint.person:
                days[stint.person, stint.day].append(stint)
        for (person, day), stints in days.items():
            hours = sum(one.seconds for one in stints)
            if hours > self.hands[person].seconds[day]:
                yield Broken(Rule.HOURS, stints[0].work, person, day, hours, self.hands[person].seconds[day])
            seen: set[str] = set()
            for one in stints:
                if one.work in seen:
                    yield Broken(Rule.TWICE, one.work, person, day, 2, 1)
                seen.add(one.work)
            taken: dict[str, Fraction] = defaultdict(Fraction)
            for one in stints:
                work = self.works[one.work]
                at_it = one.pieces * work.each if one.leads else one.seconds
                for limit, part in work.doses.items():
                    taken[limit] += Fraction(at_it * part, FULL_DOSE)
            for limit, dose in taken.items():
                if dose > 1:
                    yield Broken(Rule.DOSE, limit, person, day, float(dose), 1)

    def machines(self) -> Iterator[Broken]:
        """Hours of each machine and day."""
        for machine in self.problem.machines:
            busy: dict[int, int] = defaultdict(int)
            for stint in self.plan:
                if stint.leads and machine.id in self.works[stint.work].machines:
                    busy[stint.day] += stint.seconds
            for day, seconds in busy.items():
                if seconds > machine.seconds[day]:
                    yield Broken(Rule.MACHINE, "", machine.id, day, seconds, machine.seconds[day])

    def together(self) -> Iterator[Broken]:
        """Work for several hands: one leads, and the others are at it as long."""
        for work in self.problem.works:
            if work.hands < 2:
                continue
            for day in sorted({stint.day for stint in self.plan if stint.work == work.id}):
                here = [stint for stint in self.plan if stint.work == work.id and stint.day == day]
                leads = [stint for stint in here if stint.leads]
                helps = [stint for stint in here if not stint.leads]
                whole = len(leads) == 1 and all(one.seconds >= leads[0].seconds for one in helps)
                if not whole or len({one.person for one in helps}) != work.hands - 1:
                    yield Broken(Rule.HANDS, work.id, leads[0].person if leads else "", day, len(here), work.hands)

    def lots(self) -> Iterator[Broken]:
        """What goes out: one lot a day, on the right days, of the right size; one may be smaller."""
        for work in self.problem.works:
            if work.lots is None:
                continue
            sizes: dict[int, list[int]] = defaultdict(list)
            for stint in self.plan:
                if stint.work == work.id and stint.leads:
                    sizes[stint.day].append(stint.pieces)
            small = 0
            for day, lot in sorted(sizes.items()):
                size = sum(lot)
                small += size < work.lots.least
                too_large = work.lots.most is not None and size > work.lots.most
                if day not in work.lots.days or too_large or small > 1 or len(lot) > 1:
                    yield Broken(Rule.LOT, work.id, "", day, size, work.lots.most or work.lots.least)

    def flow(self) -> Iterator[Broken]:
        """Nothing before it came, nothing left too long, all of it done."""
        total = {work.id: [0] * self.problem.days for work in self.problem.works}
        for stint in self.plan:
            for day in range(stint.day, self.problem.days):
                total[stint.work][day] += stint.pieces if stint.leads else 0
        for work in self.problem.works:
            if total[work.id][-1] != work.pieces:
                yield Broken(Rule.ENOUGH, work.id, "", self.problem.days - 1, total[work.id][-1], work.pieces)
        for link in self.problem.links:
            yield from self._between(link, total[link.before], total[link.after])

    def _between(self, link: Link, made: list[int], taken: list[int]) -> Iterator[Broken]:
        before, after = self.works[link.before].pieces, self.works[link.after].pieces
        if before == 0 or after <= link.there:
            return
        share = Fraction(after - link.there, before)
        end = max((stint.day for stint in self.plan), default=0)
        told: set[Rule] = set()
        for day in range(self.problem.days):
            came = made[day - link.least] if day >= link.least else 0
            if taken[day] > link.there + share * came and Rule.CAME not in told:
                told.add(Rule.CAME)
                yield Broken(Rule.CAME, link.after, link.before, day, taken[day], float(link.there + share * came))
            works_today = taken[day] > (taken[day - 1] if day else 0)
            if link.whole and works_today and came < before and Rule.WHOLE not in told:
                told.add(Rule.WHOLE)
                yield Broken(Rule.WHOLE, link.after, link.before, day, came, before)
            if link.most is not None and day + link.most <= end and Rule.LATE not in told:
                left = share * made[day] - (taken[day + link.most] - link.there)
                if left >= 1:
                    told.add(Rule.LATE)
                    yield Broken(Rule.LATE, link.before, link.after, day + link.most, float(left), 0)


def _time_needed(work: Work, pieces: int) -> int:
    if not work.hands:
        return 0
    loads = 0
    if work.load and work.load_time:
        loads = pieces // work.load + (pieces % work.load > 0)
    return work.setup + pieces * work.each + loads * work.load_time
