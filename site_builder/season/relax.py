"""The season loosened: pieces and set-ups may be divided, so that only hours, doses and waits are left.

What is impossible here is impossible; the day found here is never later than the true one. The linear program of a
season takes a second or less, where a proof by search may take for ever.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from site_builder.season.engine import linear
from site_builder.season.problem import FULL_DOSE, Link, Problem, Work
from site_builder.season.spans import may, most_pieces

_NEARLY = 1e-6
_Terms = list[tuple[Any, float]]


def day_of(moment: float) -> int:
    """The day on which a moment lies: 5.25 on day 5, and 5.0, the end of day 4, on day 4."""
    return max(ceil(moment - _NEARLY) - 1, 0)


@dataclass(frozen=True, slots=True)
class More:
    """Hours that might be had besides, to see what they bring: ``seconds`` of them in all.

    Of one person, of one machine, or of somebody new who can do these ``works``.
    """

    seconds: int
    person: str | None = None
    machine: str | None = None
    works: tuple[str, ...] = ()


class Loose:
    """The linear program of a season. ``mores`` are the hours besides that will be asked about.

    Raises ``EngineMissing``.
    """

    def __init__(self, problem: Problem, mores: Sequence[More] = ()) -> None:
        self.problem, self.mores = problem, tuple(mores)
        self._engine = linear()
        self._model = self._engine.Model()
        self._open = [self._number(1) for _ in range(problem.days)]
        """What share of each day may be worked."""
        self._pools = [self._number(0) for _ in self.mores]
        self._people: dict[tuple[str, int], _Terms] = {}
        self._machines: dict[tuple[str, int], _Terms] = {}
        self._doses: dict[tuple[str, int, str], _Terms] = {}
        self._besides: list[_Terms] = [[] for _ in self.mores]
        self._done: dict[str, list[Any]] = {}
        self._nobody = False
        self._last: Any = None
        for work in problem.works:
            self._flow(work)
        for link in problem.links:
            self._link(link)
        self._hours()

    def share(self, until: int, more: More | None = None) -> float | None:
        """Whether all can be done by day ``until``: the share of that day (0 to 1) it takes; None if it cannot."""
        if self._nobody:
            return None
        for day, open_ in enumerate(self._open):
            open_.upper_bound = 1 if day <= until else 0
        for pool, one in zip(self._pools, self.mores, strict=True):
            pool.upper_bound = one.seconds if one is more else 0
        self._model.minimize(self._open[until])
        solver = self._engine.Solver("GLOP")
        if solver.solve(self._model) != self._engine.SolveStatus.OPTIMAL:
            return None
        self._last = solver
        return min(max(float(solver.value(self._open[until])), 0.0), 1.0)

    def earliest(self, more: More | None = None, below: float | None = None) -> float | None:
        """The earliest moment at which all can be done; None if never. ``5.25`` is a quarter into day 5.

        It is a bound: the true moment is the same or a later one. With ``below`` it is searched downward from there.
        """
        if below is not None:
            return self._down(below, more)
        low, high = 0, self.problem.days - 1
        found = self.share(high, more)
        if found is None:
            return None
        while low < high:
            middle = (low + high) // 2
            share = self.share(middle, more)
            if share is None:
                low = middle + 1
            else:
                high, found = middle, share
        return high + found

    def _down(self, moment: float, more: More | None) -> float:
        day = day_of(moment)
        found = self.share(day, more)
        if found is None:
            return moment
        while found < _NEARLY and day > 0:
            earlier = self.share(day - 1, more)
            if earlier is None:
                break
            day, found = day - 1, earlier
        return min(day + found, moment)

    def may_help(self, moment: float) -> tuple[More, ...]:
        """Of the hours besides, those that may bring ``moment`` nearer; of the others the program proves they do not.

        Where a loosened season has a reduced cost of nothing for them, more of them change nothing.
        """
        day = day_of(moment)
        if self.share(day) is None or self._last is None:
            return ()
        costs = [float(self._last.reduced_cost(pool)) for pool in self._pools]
        return tuple(more for more, cost in zip(self.mores, costs, strict=True) if cost < -1e-12)

    # ------------------------------------------------------------------ the program

    def _number(self, most: float) -> Any:
        return self._model.new_num_var(0, most, "")

    def _row(self, terms: _Terms, low: float, high: float) -> None:
        """A row of the program: the sum of terms lies between these."""
        total = self._engine.LinearExpr.weighted_sum([one for one, _ in terms], [by for _, by in terms])
        self._model.add_linear_constraint(total, low, high)

    def _flow(self, work: Work) -> None:
        """Pieces of each day, and how many are done by the end of it."""
        so_far: Any = None
        done: list[Any] = []
        for day in range(self.problem.days):
            pieces = self._stints(work, day) if work.pieces and _is_open(work, day) else []
            if pieces:
                total = self._number(work.pieces)
                before: _Terms = [] if so_far is None else [(so_far, 1.0)]
                self._row([(total, -1.0), *before, *((one, 1.0) for one in pieces)], 0, 0)
                so_far = total
            done.append(so_far)
        self._done[work.id] = done
        if so_far is not None:
            so_far.lower_bound = work.pieces
        elif work.pieces:
            self._nobody = True

    def _stints(self, work: Work, day: int) -> list[Any]:
        problem = self.problem
        pieces: list[Any] = []
        seconds: _Terms = []
        if not work.hands:
            one = self._number(work.pieces)
            self._row([(one, 1.0), (self._open[day], -float(work.pieces))], -_inf(), 0)
            return [one]
        for able in work.able:
            room = problem.hand(able.person).seconds[day]
            room += sum(more.seconds for more in self.mores if more.person == able.person) if room else 0
            most = most_pieces(work, room)
            if most and may(problem, able, day):
                one = self._number(most)
                pieces.append(one)
                term = (one, self._rate(work, most))
                seconds.append(term)
                self._people.setdefault((able.person, day), []).append(term)
                for limit, dose in work.doses.items():
                    self._doses.setdefault((able.person, day, limit), []).append((one, work.each * dose / FULL_DOSE))
        for number, more in enumerate(self.mores):
            if work.id in more.works and pieces:
                one = self._number(work.pieces)
                pieces.append(one)
                term = (one, self._rate(work, most_pieces(work, more.seconds) or 1))
                seconds.append(term)
                self._besides[number].append(term)
        for machine in work.machines:
            self._machines.setdefault((machine, day), []).extend(seconds)
        if work.hands > 1 and seconds:
            self._help(work, day, seconds)
        return pieces

    @staticmethod
    def _rate(work: Work, most: int) -> float:
        """Seconds a piece: a set-up shared out over the most pieces that could follow it, never more than the truth."""
        return work.each + work.setup / most + (work.load_time / work.load if work.load else 0)

    def _help(self, work: Work, day: int, seconds: _Terms) -> None:
        helping: _Terms = []
        for helper in work.helpers:
            room = self.problem.hand(helper).seconds[day]
            if room:
                one = self._number(_inf())
                self._people.setdefault((helper, day), []).append((one, 1.0))
                helping.append((one, 1.0))
        self._row([*helping, *((one, -by * (work.hands - 1)) for one, by in seconds)], 0, 0)

    def _link(self, link: Link) -> None:
        before, after = self.problem.work(link.before), self.problem.work(link.after)
        rest = after.pieces - link.there
        if not before.pieces or rest <= 0:
            return
        made, taken = self._done[before.id], self._done[after.id]
        ratio = rest / before.pieces
        for day in range(self.problem.days):
            then = day - link.least
            if taken[day] is not None and (day == 0 or taken[day] is not taken[day - 1]):
                came = made[then] if then >= 0 else None
                self._row([(taken[day], 1.0), *([(came, -ratio)] if came is not None else [])], -_inf(), link.there)
            due = day + link.most if link.most is not None else None
            is_new = made[day] is not None and (day == 0 or made[day] is not made[day - 1])
            if due is not None and due < self.problem.days and is_new:
                later = [(taken[due], 1.0)] if taken[due] is not None else []
                self._row([*later, (made[day], -ratio)], link.there - 1, _inf())

    def _hours(self) -> None:
        for (person, day), terms in self._people.items():
            room = self.problem.hand(person).seconds[day]
            self._row([*terms, (self._open[day], -room), *self._beside("person", person)], -_inf(), 0)
        for machine in self.problem.machines:
            for day in range(self.problem.days):
                terms = self._machines.get((machine.id, day), [])
                if terms:
                    room = machine.seconds[day]
                    self._row([*terms, (self._open[day], -room), *self._beside("machine", machine.id)], -_inf(), 0)
        for terms in self._doses.values():
            self._row(terms, -_inf(), 1)
        for pool, spent in zip(self._pools, self._besides, strict=True):
            if spent:
                self._row([*spent, (pool, -1.0)], -_inf(), 0)

    def _beside(self, kind: str, id_: str) -> _Terms:
        """Of each pool of hours besides what is taken on this day."""
        found: _Terms = []
        for number, more in enumerate(self.mores):
            if getattr(more, kind) == id_:
                one = self._number(more.seconds)
                self._besides[number].append((one, 1.0))
                found.append((one, -1.0))
        return found


def _is_open(work: Work, day: int) -> bool:
    return work.first <= day <= work.last and (work.lots is None or day in work.lots.days)


def _inf() -> float:
    return float("inf")
