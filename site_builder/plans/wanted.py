"""A season as the notebook asks for it: the problem in plain numbers, what each number stands for, what was assumed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from site_builder.batch.batch import Batch, LegSpent, Wanted, reckon_batch
from site_builder.batch.leg import Leg
from site_builder.batch.span import written_span
from site_builder.batch.times import hands_of
from site_builder.batch.variant import chosen_for
from site_builder.figures.batch_orders import calendar_of, pieces_of
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas.errors import Impossible
from site_builder.notebook.gather import tool_uses
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.shop import Order
from site_builder.notebook.model.small import WEEKDAYS
from site_builder.notebook.model.things import Machine as MachineEntry
from site_builder.plans.calendar import Days, accompanied, person_days
from site_builder.plans.doses import doses_of, limits
from site_builder.plans.supplies import coming_for
from site_builder.plans.upkeep_days import kept_up
from site_builder.plans.waits import least_days, most_days, stands_on_a_day
from site_builder.plans.who_may import WhoMay
from site_builder.season.problem import Hand, Link, Lots, Machine, Problem, Work

BEYOND = 70
"""Days after the due day that are looked at too, to tell when it could be if not in time."""


class CannotPlan(Exception):
    """Why a season cannot even be asked for: a sentence that says which line to write."""


@dataclass(frozen=True, slots=True)
class Planned:
    """What a work of the problem stands for."""

    order: str
    part: str
    procedure: str


@dataclass(frozen=True)
class Wants:
    """A season in plain numbers. ``means`` tells of each work what it stands for, ``due`` is the day of the order."""

    order: str
    problem: Problem
    days: Days
    due: int
    pieces: int
    means: Mapping[str, Planned]
    assumed: tuple[str, ...]
    scrap: Mapping[str, float]
    spare: int
    """Pieces of the whole that are begun on top of those ordered."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked otherwise than it is written, to see what if."""

    pieces: int | None = None
    due: date | None = None


def wants(
    known: FigureInputs, id_: str, asked: Asked | None = None, start: date | None = None, ordered: date | None = None,
) -> Wants:
    """What the season of an order is planned from. It begins on ``start`` at the earliest, and what is bought is
    ordered on the day ``ordered``; both today if not told. Raises ``CannotPlan``."""
    asked = asked or Asked()
    order = known.notebook.orders[id_]
    due = asked.due or (order.due.value.last if order.due is not None else None)
    if due is None:
        raise CannotPlan(f"{order.at.path} does not say by when. Write `due: 2027-05-14`.")
    first = max(start or known.today, order.not_before.value.first if order.not_before is not None else date.min)
    if due < first:
        raise CannotPlan(f"“{order.title}” was due on {due:%Y-%m-%d}, and nothing can begin before {first:%Y-%m-%d}. "
                         f"Write another day into {order.at.path}, or plan at an earlier one with --today.")
    days = Days(first, (due - first).days + 1 + BEYOND, calendar_of(known.notebook, order))
    return _Wanted(known, id_, order, days, days.number(due), asked, ordered or known.today).made()


class _Wanted:
    def __init__(
        self, known: FigureInputs, id_: str, order: Order, days: Days, due: int, asked: Asked, ordered: date,
    ) -> None:
        self.ordered = ordered
        self.known, self.id, self.order, self.days, self.due, self.asked = known, id_, order, days, due, asked
        self.who = WhoMay(known, days)
        self.assumed: dict[str, None] = {}
        self.works: list[Work] = []
        self.links: list[Link] = []
        self.means: dict[str, Planned] = {}
        self.scrap: dict[str, float] = {}
        self.machines: dict[str, Machine] = {}

    def made(self) -> Wants:
        pieces = self._add(self.id, self.order, self.asked.pieces, None)
        for other, order in self.known.notebook.orders.items():
            if other != self.id and order.due is not None and self._shares(order):
                self._add(other, order, None, self.days.number(order.due.value.last))
        hands = self._hands()
        allowed = limits(self.known)
        for told in (
            "What is done on one day goes on the next day at the earliest; where it must stand longer, later.",
            f"Nobody is planned over a daily level of {allowed.noise:g} dB(A), a daily vibration of "
            f"{allowed.vibration:g} m/s², or {allowed.lifting:g} kg lifted in a day; only measuring tells what it "
            "really is, and a lift of which no weight is told is not counted.",
            "Rooms are as warm and dry as the work asks. Errands and ways are not counted.",
        ):
            self.assumed[told] = None
        problem = Problem(self.days.count, hands, tuple(self.machines.values()), tuple(self.works), tuple(self.links))
        whole = self.means_of_last()
        spare = max(whole - pieces, 0)
        return Wants(self.id, problem, self.days, self.due, pieces, self.means, tuple(self.assumed), self.scrap, spare)

    def means_of_last(self) -> int:
        """How many pieces come to the last work of the order."""
        ends = [work.pieces for work in self.works if self.means[work.id].order == self.id
                and not any(link.before == work.id for link in self.links)]
        return min(ends, default=0)

    def _shares(self, order: Order) -> bool:
        """Whether another order is made in the same days; one that is due later waits."""
        assert order.due is not None
        due = order.due.value.last
        if pieces_of(order) is None or order.product is None or due < self.days.first:
            return False
        if due > self.days.on(self.due):
            self.assumed[f"“{order.title}” is due later and waits."] = None
            return False
        return True

    # ------------------------------------------------------------------ the work of an order

    def _add(self, id_: str, order: Order, pieces: int | None, due: int | None) -> int:
        nb = self.known.notebook
        ordered = pieces if pieces is not None else pieces_of(order)
        if ordered is None or order.product not in nb.parts:
            raise CannotPlan(f"{order.at.path} does not say what, or how many. Write `product:` and `pieces:`.")
        made = {str(part): ceil(span.most) for part, count in order.made.items()
                if (span := written_span(count, "count")) is not None}
        if order.split:
            at = order.split[0].at
            raise CannotPlan(f"{at.path}:{at.line}: an order that is split is not planned in one. Write an order of "
                             "its own for each share.")
        left = int(ordered) - made.get(str(order.product), 0)
        if left <= 0:
            if id_ == self.id:
                raise CannotPlan(f"All of “{order.title}” is made already, by {order.at.path}: nothing is left.")
            return int(ordered)
        wanted = Wanted(str(order.product), left, chosen_for(nb, str(order.product), order))
        try:
            batch = reckon_batch(nb, self.known.route, self.known.reckoning, wanted)
        except Impossible as problem:
            raise CannotPlan(f"{order.at.path}: nothing can be reckoned, {problem}.") from None
        if not batch.legs:
            raise CannotPlan(f"No procedure makes “{nb.parts[str(order.product)].title}”: nothing is there to plan.")
        shares = {part.part: _left_share(part.wanted, made.get(part.part, 0)) for part in batch.parts}
        for part in batch.parts:
            for spent in part.legs:
                self._work(id_, order, part.part, spent, shares[part.part], due)
        self._routes(id_, batch, shares)
        return left

    def _key(self, order: str, procedure: str) -> str:
        return procedure if order == self.id else f"{order}:{procedure}"

    def _work(
        self, id_: str, order: Order, part: str, spent: LegSpent, share: Fraction, due: int | None
    ) -> None:
        leg, own = spent.leg, spent.leg.procedure
        key = self._key(id_, leg.id)
        self.means[key] = Planned(id_, part, leg.id)
        self.scrap[key] = float(leg.scrap or 0)
        pieces = ceil(spent.pieces * share)
        setup, each, load_time = self._times(leg, spent)
        at_once = _at_once(leg)
        hands = 0 if leg.outside and not load_time else at_once
        able = self.who.able(own) if hands else ()
        helpers = self.who.helpers(own) if hands > 1 else ()
        first, last = 0, due if due is not None else 1_000_000
        not_before = order.not_before
        if not_before is not None:
            first = max(self.days.number(not_before.value.first), 0)
        for coming in coming_for(self.known.notebook, own, {part: pieces}, self.ordered):
            first = max(first, self.days.number(coming.on))
            self.assumed[f"“{coming.title}”: {coming.there} there; ordered on {self.ordered}, it comes by {coming.on}, "
                         "and the work that takes it waits until then."] = None
        for pin in order.pinned:
            if pin.work == leg.id:
                if pin.who is not None:
                    able = tuple(one for one in able if one.person == pin.who)
                if pin.date is not None:
                    first = max(first, self.days.number(pin.date.value.first))
                    last = min(last, self.days.number(pin.date.value.last))
        if at_once > leg.hands:
            self.assumed[f"“{own.title}”: a step takes {at_once} at once; they are counted for all of it."] = None
        for one in able:
            until = self.who.renewed(own, one.person)
            if until is not None:
                name = self.known.notebook.people[one.person].name
                self.assumed[f"A paper of {name} runs out after {until:%Y-%m-%d} and is renewed by then."] = None
        for one_id in self.who.unsigned(own) if hands else ():
            name = self.known.notebook.people[one_id].name
            self.assumed[f"{name} is taken to do alone what nobody is signed off for "
                         "yet, as one with whom the chain begins."] = None
        for one_id, day in (self.who.opened(own) if hands else {}).items():
            name = self.known.notebook.people[one_id].name
            self.assumed[f"{name} does “{own.title}” alone from {day} on, by lessons that are decided and not signed "
                         "off yet."] = None
        if hands and not able:
            self.assumed[f"“{own.title}” can be done by nobody in these days, as it is written."] = None
        load = int(leg.load) if leg.load and load_time else None
        self.works.append(Work(
            key, pieces, setup, each, load_time, load, hands, able, helpers, tuple(self._machines(own)),
            doses_of(self.known, leg.id, each), self._lots(leg) if leg.outside else None, first, last))

    def _times(self, leg: Leg, spent: LegSpent) -> tuple[int, int, int]:
        """Seconds by the clock: to begin on a day, for a piece with what is done again, for a load."""
        times = leg.times
        title = leg.procedure.title
        if times is None or times.gaps:
            if not leg.outside:
                self.assumed[f"“{title}”: its time is not told in full; what is not told counts as nothing."] = None
            if times is None:
                return 0, 0, 0
        setup, each = float(times.setup.most) / leg.hands, float(times.each.most) / leg.hands * (1 + float(leg.rework))
        load = float(times.load.most) / leg.hands
        if leg.outside:
            return ceil(setup), ceil(each), ceil(load + float(times.lot.most) / leg.hands)
        setup += float(times.lot.most) / leg.hands
        for run, _ in spent.runs:
            if run.each_time is not None:
                setup += float(run.each_time.most) if run.at_start else 0
                each += float(run.each_time.most) / run.every if run.every else 0
        return ceil(setup), ceil(each), ceil(load)

    def _lots(self, leg: Leg) -> Lots:
        """What goes out: on which days, how many at least and at most."""
        own = leg.procedure
        taken = tuple(map(str, own.taken_in))
        if not taken:
            self.assumed[f"“{own.title}”: on which days it is taken in is not told; any working day."] = None
        days = frozenset(
            day for day in range(self.days.count)
            if WEEKDAYS[self.days.on(day).weekday()] in (taken or self.days.usual)
            and not self.days.closed(self.days.on(day)))
        found = [one for limit in own.load for one in self.known.reckoning.bounds_of(limit) if one is not None]
        least = max((int(one.low) for one in found if one.low is not None), default=0)
        return Lots(days, least, int(leg.load) if leg.load else None)

    def _machines(self, own: Procedure) -> Iterator[str]:
        nb = self.known.notebook
        for use in tool_uses(nb, own):
            tool = nb.tools.get(str(use.tool))
            if tool is None or use.or_ or not (isinstance(tool, MachineEntry) or tool.count is not None):
                continue
            id_ = str(use.tool)
            if id_ not in self.machines:
                span = written_span(tool.count, "count")
                count = max(int(span.least), 0) if span is not None else 1
                open_ = (0 if self.days.closed(self.days.on(day)) else self.days.shop_seconds * count
                         for day in range(self.days.count))
                self.machines[id_] = Machine(id_, kept_up(tool, self.days, tuple(open_), self.assumed))
            yield id_

    def _routes(self, id_: str, batch: Batch, shares: Mapping[str, Fraction]) -> None:
        """What waits for what: the order of the work, and each whole for its parts."""
        legs = {spent.leg.id: (part.part, spent) for part in batch.parts for spent in part.legs}
        pieces = {work.id: work.pieces for work in self.works}
        for after, (part, _) in legs.items():
            for before in self.known.route.before[after]:
                if before in legs:
                    from_part, spent = legs[before]
                    key, then = self._key(id_, before), self._key(id_, after)
                    there = 0
                    if from_part != part and shares[from_part] < 1:
                        there = int((1 - shares[from_part]) * pieces[then])
                    most = most_days(self.known, spent.leg, after)
                    least = least_days(spent.leg, most)
                    if most is not None and most < least:
                        title = self.known.notebook.procedures[before].title
                        self.assumed[f"After “{title}” it must stand {least} days and may stand {most} only; the "
                                     "longer is taken."] = None
                        most = least
                    stands = stands_on_a_day(self.known, spent.leg, after) if least == 0 else (0, None)
                    self.links.append(Link(key, then, least, most, there, stands=stands))

    # ------------------------------------------------------------------ the people

    def _hands(self) -> tuple[Hand, ...]:
        found = []
        for id_, person in self.known.notebook.living.items():
            of_person = person_days(self.days, id_, person)
            found.append(of_person.hand)
            self.assumed |= dict.fromkeys(of_person.assumed)
        young = self.who.young()
        if young:
            self.assumed["Who is under eighteen works only on days on which somebody grown is in."] = None
        return accompanied(found, young)


def _at_once(leg: Leg) -> int:
    """How many people the work takes at once: the most that it or a step of it asks for."""
    return max([leg.hands, *(hands_of(step) for step in leg.procedure.steps if step.hands)])


def _left_share(wanted: int, made: int) -> Fraction:
    return max(1 - Fraction(made, wanted), Fraction(0)) if wanted else Fraction(0)


def kinds(wanted: Wants, known: FigureInputs) -> Sequence[tuple[str, tuple[str, ...]]]:
    """Each skill of the season with its works, so that more hands of it can be asked about."""
    found: dict[str, list[str]] = {}
    for id_, planned in wanted.means.items():
        skill = known.notebook.procedures[planned.procedure].skill
        if isinstance(skill, str):
            found.setdefault(str(skill), []).append(id_)
    return [(skill, tuple(ids)) for skill, ids in found.items()]




