"""The season by days: whole pieces of each work, by each person, on each day. The model that is searched.

Nothing is worked before it came; hours, machines and doses of a day suffice; set-ups and loads are whole; two hands are
two people; lots that go out are neither too small nor too large.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from site_builder.season.engine import cp_sat
from site_builder.season.problem import FULL_DOSE, Plan, Problem, Stint, Work
from site_builder.season.spans import Days, may, most_pieces, spans

NOBODY = ""
"""Who does work that is nobody's time here."""


class ByDays:
    """A season that ends on day ``until`` at the latest, as a model for the engine.

    With ``goals`` only so many pieces of each work need be done by then, and none is done before day ``since``;
    ``fixed`` are stints that are laid already and stay as they are.
    """

    def __init__(
        self, problem: Problem, until: int, goals: Mapping[str, int] | None = None, fixed: Plan = (), since: int = 0,
    ) -> None:
        self.problem, self.until, self.since = problem, until, since
        self.goals = goals if goals is not None else {work.id: work.pieces for work in problem.works}
        self.fixed = fixed
        self._laid = {(stint.work, stint.person, stint.day) for stint in fixed}
        self._busy = {(stint.work, stint.day) for stint in fixed}
        self.model = cp_sat().CpModel()
        self.days: Mapping[str, Days] = spans(problem, until)
        self.pieces: dict[tuple[str, str, int], Any] = {}
        """(work, person, day): how many."""
        self.begun: dict[tuple[str, str, int], Any] = {}
        self.loads: dict[tuple[str, str, int], Any] = {}
        self.helping: dict[tuple[str, str, int], Any] = {}
        self.seconds: dict[tuple[str, str, int], Any] = {}
        self.done: dict[str, list[Any]] = {}
        self.totals: dict[str, list[tuple[int, Any]]] = {}
        for work in problem.works:
            self._flow(work)
        for link in problem.links:
            self._link(link.before, link.after, link.least, link.most, link.there, link.whole)
        self._people()
        self._machines()

    # ------------------------------------------------------------------ what flows

    def _flow(self, work: Work) -> None:
        """Pieces done by the end of each day: those that are laid already, and those that are looked for."""
        model = self.model
        done: list[Any] = []
        new: Any = 0
        laid = before = 0
        left = self.goals[work.id] - sum(one.pieces for one in self.fixed if one.work == work.id)
        small_lots: list[Any] = []
        for day in range(self.until + 1):
            laid += sum(one.pieces for one in self.fixed if one.work == work.id and one.day == day)
            here: list[Any] = []
            span = self.days[work.id]
            if left > 0 and max(span.first, self.since) <= day <= span.last and _open(work, day):
                here = self._stints(work, day, left)
            if here:
                total = model.new_int_var(0, left, "")
                model.add(total == new + sum(here))
                self.totals.setdefault(work.id, []).append((day, total))
                new = total
                if work.lots is not None:
                    small_lots.append(self._lot(work, sum(here)))
            done.append(laid + new if not done or here or laid != before else done[-1])
            before = laid
        if left > 0 and isinstance(new, int):
            model.add_bool_or([])  # nobody can do it on any day
        elif left > 0:
            model.add(new == left)
        if small_lots:
            model.add(sum(small_lots) <= 1)
        self.done[work.id] = done

    def _stints(self, work: Work, day: int, left: int) -> list[Any]:
        problem, found, begun = self.problem, [], []
        if (work.hands != 1 or work.lots is not None) and (work.id, day) in self._busy:
            return []
        if not work.hands:
            one = self.model.new_int_var(0, left, "")
            self.pieces[work.id, NOBODY, day] = one
            return [one]
        for able in work.able:
            most = min(most_pieces(work, problem.hand(able.person).seconds[day]), left)
            key = work.id, able.person, day
            if most and may(problem, able, day) and key not in self._laid:
                found.append(self._stint(work, key, most))
                begun.append(self.begun[key])
        if found and (work.hands > 1 or work.lots is not None):
            self.model.add_at_most_one(begun)
        if found and work.hands > 1:
            self._help(work, day, begun)
        return found

    def _stint(self, work: Work, key: tuple[str, str, int], most: int) -> Any:
        model = self.model
        one, begun = model.new_int_var(0, most, ""), model.new_bool_var("")
        model.add(one <= most * begun)
        model.add(one >= begun)
        seconds = work.setup * begun + work.each * one
        if work.load and work.load_time:
            loads = model.new_int_var(0, -(-most // work.load), "")
            model.add(work.load * loads >= one)
            seconds += work.load_time * loads
            self.loads[key] = loads
        self.pieces[key], self.begun[key], self.seconds[key] = one, begun, seconds
        return one

    def _help(self, work: Work, day: int, begun: list[Any]) -> None:
        """The second pair of hands, for as long as the first is at it."""
        leading = sum(self.seconds[work.id, able.person, day] for able in work.able
                      if (work.id, able.person, day) in self.seconds)
        helping = []
        for helper in work.helpers:
            room = self.problem.hand(helper).seconds[day]
            if not room or (work.id, helper, day) in self._laid:
                continue
            takes_part, time = self.model.new_bool_var(""), self.model.new_int_var(0, room, "")
            self.model.add(time <= room * takes_part)
            self.model.add(time == leading).only_enforce_if(takes_part)
            if (work.id, helper, day) in self.begun:
                self.model.add_at_most_one(takes_part, self.begun[work.id, helper, day])
            self.helping[work.id, helper, day] = time
            helping.append(takes_part)
        self.model.add(sum(helping) == (work.hands - 1) * sum(begun))

    def _lot(self, work: Work, pieces: Any) -> Any:
        """One lot a day at most, of the right size; the last may be smaller. Returns whether this is that one."""
        assert work.lots is not None
        goes, small = self.model.new_bool_var(""), self.model.new_bool_var("")
        most = work.pieces if work.lots.most is None else min(work.lots.most, work.pieces)
        self.model.add(pieces <= most * goes)
        self.model.add(pieces >= goes)
        self.model.add(pieces >= work.lots.least).only_enforce_if(goes, ~small)
        self.model.add_implication(small, goes)
        return small

    def _link(self, before_id: str, after_id: str, least: int, most: int | None, there: int, whole: bool) -> None:
        before, after = self.problem.work(before_id), self.problem.work(after_id)
        rest = after.pieces - there
        if not before.pieces or rest <= 0:
            return
        made, taken = self.done[before_id], self.done[after_id]
        for day in range(self.until + 1):
            then = day - least
            if day == 0 or taken[day] is not taken[day - 1]:
                came = made[then] if then >= 0 else 0
                self._holds(before.pieces * taken[day] <= rest * came + before.pieces * there)
                if whole:
                    all_done = self.model.new_bool_var("")
                    self._holds(before.pieces * all_done <= came)
                    today = taken[day] - (taken[day - 1] if day else 0)
                    self._holds(today <= after.pieces * all_done)
            if most is not None and day + most <= self.until and (day == 0 or made[day] is not made[day - 1]):
                # less than one whole piece may be left over, since what gets lost is lost evenly
                self._holds(before.pieces * (taken[day + most] - there) + before.pieces - 1 >= rest * made[day])

    def _holds(self, what: Any) -> None:
        """A constraint, or where all of it is laid already, its truth."""
        if not isinstance(what, bool):
            self.model.add(what)
        elif not what:
            self.model.add_bool_or([])

    # ------------------------------------------------------------------ what suffices

    def _people(self) -> None:
        spent: dict[tuple[str, int], list[Any]] = {}
        doses: dict[tuple[str, int, str], list[Any]] = {}
        for (work_id, person, day), seconds in self.seconds.items():
            spent.setdefault((person, day), []).append(seconds)
            work = self.problem.work(work_id)
            for limit, dose in work.doses.items():
                doses.setdefault((person, day, limit), []).append(
                    work.each * dose * self.pieces[work_id, person, day])
        for (work_id, person, day), seconds in self.helping.items():
            spent.setdefault((person, day), []).append(seconds)
            for limit, dose in self.problem.work(work_id).doses.items():
                doses.setdefault((person, day, limit), []).append(dose * seconds)
        taken: dict[tuple[str, int], int] = {}
        dosed: dict[tuple[str, int, str], int] = {}
        for stint in self.fixed:
            work = self.problem.work(stint.work)
            taken[stint.person, stint.day] = taken.get((stint.person, stint.day), 0) + stint.seconds
            for limit, dose in work.doses.items():
                key = stint.person, stint.day, limit
                at_it = work.each * stint.pieces if stint.leads else stint.seconds
                dosed[key] = dosed.get(key, 0) + dose * at_it
        for (person, day), terms in spent.items():
            self.model.add(sum(terms) <= self.problem.hand(person).seconds[day] - taken.get((person, day), 0))
        for key, terms in doses.items():
            self.model.add(sum(terms) <= FULL_DOSE - dosed.get(key, 0))
        self._spent = spent

    def _machines(self) -> None:
        for machine in self.problem.machines:
            users = {work.id for work in self.problem.works if machine.id in work.machines}
            by_day: dict[int, list[Any]] = {}
            for (work_id, _, day), seconds in self.seconds.items():
                if work_id in users:
                    by_day.setdefault(day, []).append(seconds)
            for day, terms in by_day.items():
                taken = sum(one.seconds for one in self.fixed if one.day == day and one.leads and one.work in users)
                self.model.add(sum(terms) <= machine.seconds[day] - taken)

    # ------------------------------------------------------------------ what is wished

    def aim_at_soonest(self) -> None:
        """As few days as can be: the objective is the day on which the last piece is done."""
        finish = self.model.new_int_var(0, self.until, "")
        for (_, _, day), begun in self.begun.items():
            self.model.add(finish >= day).only_enforce_if(begun)
        for (work, person, day), pieces in self.pieces.items():
            if person == NOBODY:
                self.model.add(finish >= day).only_enforce_if(_any(self.model, pieces, self.problem.work(work)))
        self.model.minimize(finish)

    def aim_at_calm(self, change: int = 1_800, peak: int = 5) -> None:
        """Few changes of work and an even load: each begun stint counts ``change`` seconds, the fullest week of each
        person so many times its seconds as ``peak``."""
        weeks: dict[tuple[str, int], list[Any]] = {}
        for (person, day), terms in self._spent.items():
            weeks.setdefault((person, day // 7), []).extend(terms)
        fullest: dict[str, Any] = {}
        for (person, _), terms in weeks.items():
            top = fullest.setdefault(person, self.model.new_int_var(0, 7 * 86_400, ""))
            self.model.add(top >= sum(terms))
        self.model.minimize(change * sum(self.begun.values()) + peak * sum(fullest.values()))

    def start_from(self, plan: Plan) -> None:
        """Let the search begin at a plan that is known."""
        leads = {(stint.work, stint.person, stint.day): stint for stint in plan if stint.leads}
        helps = {(stint.work, stint.person, stint.day): stint for stint in plan if not stint.leads}
        for key, pieces in self.pieces.items():
            stint = leads.get(key)
            self.model.add_hint(pieces, stint.pieces if stint else 0)
            if key in self.begun:
                self.model.add_hint(self.begun[key], bool(stint))
            work = self.problem.work(key[0])
            if key in self.loads and work.load:
                self.model.add_hint(self.loads[key], -(-stint.pieces // work.load) if stint else 0)
        for key, time in self.helping.items():
            self.model.add_hint(time, helps[key].seconds if key in helps else 0)
        for work in self.problem.works:
            for day, total in self.totals.get(work.id, ()):
                self.model.add_hint(total, sum(
                    one.pieces for one in plan if one.leads and one.work == work.id and one.day <= day))

    def read(self, engine: Any) -> Plan:
        """The plan that was found."""
        found = [
            Stint(day, person, work, engine.value(pieces),
                  engine.value(self.seconds[work, person, day]) if person != NOBODY else 0)
            for (work, person, day), pieces in self.pieces.items() if engine.value(pieces)
        ]
        found += [Stint(day, person, work, 0, engine.value(time), leads=False)
                  for (work, person, day), time in self.helping.items() if engine.value(time)]
        return tuple(sorted((*found, *self.fixed)))


def _open(work: Work, day: int) -> bool:
    return work.lots is None or day in work.lots.days


def _any(model: Any, pieces: Any, work: Work) -> Any:
    some = model.new_bool_var("")
    model.add(pieces <= work.pieces * some)
    return some
