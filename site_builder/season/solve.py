"""From a problem to a plan: what is impossible, the soonest day that was found, and a calm plan for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil

from site_builder.season.by_days import ByDays
from site_builder.season.engine import Effort
from site_builder.season.first import first_plan
from site_builder.season.problem import Plan, Problem, last_day
from site_builder.season.relax import Loose, day_of
from site_builder.season.search import Answer, search
from site_builder.season.spans import spans

Say = Callable[[str], None]
_SMALL = 3_000
"""So many stints that might be are searched in some seconds; with several times as many, building and simplifying the
model alone takes minutes."""
_USUAL = Effort(10.0)
_STEPS = 4
"""How many days a first plan is tried for between the bound and the end."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What is wished: all done by day ``due``; ``soonest`` before calm, or calm and merely in time.

    Without ``effort`` a small season is searched through, and a large one only where the plain rule finds no plan.
    """

    due: int
    soonest: bool = True
    effort: Effort | None = None


@dataclass(frozen=True, slots=True)
class Season:
    """What was found.

    ``bound`` is the day before which it cannot be done (None: it cannot be done at all in the days there are),
    ``plan`` the best plan found (None: none was). ``proven``: no plan can end sooner. ``stopped``: somebody stopped it.
    ``moment``: the end by hours alone. ``searched``: whether more was tried than the plain rule.
    """

    bound: int | None
    plan: Plan | None
    proven: bool
    stopped: bool
    moment: float | None = None
    searched: bool = True

    @property
    def finish(self) -> int | None:
        """The day on which the last piece is done."""
        return None if self.plan is None else last_day(self.plan)

    def in_time(self, due: int) -> bool | None:
        """Whether it can be done by a day: yes, no (proven), or None where neither is known."""
        if self.bound is None or self.bound > due:
            return False
        if self.finish is not None and self.finish <= due:
            return True
        return False if self.proven else None


def season(problem: Problem, aim: Aim, say: Say = lambda _: None) -> Season:
    """Plan. ``say`` is told in words how far it is. Ctrl-C ends it with the best so far, and goes on upward only where
    there is none yet. Raises ``EngineMissing``, ``Circle``."""
    say("A first plan, and what the hours allow")
    first = first_plan(problem, problem.days - 1)
    best = None if first is None else Season(_shortest(problem), first, False, True, None, searched=False)
    try:
        moment = _moment(problem, first)
        if moment is None:
            return Season(None, None, True, False)
        bound = max(day_of(moment), _shortest(problem))
        best = None if first is None else replace(_laid(bound, first, moment), stopped=True)
        say("The first plan drawn together")
        plan = _first(problem, bound, first)
        best = None if plan is None else replace(_laid(bound, plan, moment), stopped=True)
        effort = aim.effort or (_USUAL if plan is None or _size(problem, last_day(plan)) <= _SMALL else None)
        if effort is None:
            return _laid(bound, plan, moment)
        found = _laid(bound, plan, moment)
        if not found.proven:
            found = replace(_sooner(problem, effort, bound, plan, say), moment=moment)
            best = None if found.plan is None else replace(found, stopped=True)
        if found.plan is not None and not found.stopped:
            found = _calmer(problem, aim, effort, found, say)
        return replace(found, moment=moment, searched=True)
    except KeyboardInterrupt:
        if best is None:
            raise
        return best


def _laid(bound: int, plan: Plan | None, moment: float) -> Season:
    """What is known before anything is searched."""
    return Season(bound, plan, plan is not None and last_day(plan) == bound, False, moment, searched=False)


def _moment(problem: Problem, plan: Plan | None) -> float | None:
    """The end by hours alone; after the last day of a plan that is known it need not be looked for."""
    return Loose(problem if plan is None else problem.until(last_day(plan))).earliest()


def _size(problem: Problem, until: int) -> int:
    """How many stints there might be: whoever may do a work, on each day on which it can be done."""
    days = spans(problem, until)
    return sum(max(days[work.id].last - days[work.id].first + 1, 0) * max(len(work.able), 1) for work in problem.works)


def quick(problem: Problem) -> tuple[int | None, Plan | None]:
    """The bound and a plan by the plain rule alone, to compare seasons with each other in a few seconds.

    Raises ``EngineMissing``, ``Circle``.
    """
    plan = first_plan(problem, problem.days - 1)
    moment = _moment(problem, plan)
    if moment is None:
        return None, None
    bound = max(day_of(moment), _shortest(problem))
    return bound, _first(problem, bound, plan)


def _shortest(problem: Problem) -> int:
    """The first day on which the last work can end by the waits alone."""
    return max((days.first for days in spans(problem, problem.days - 1).values()), default=0)


def _first(problem: Problem, soonest: int, best: Plan | None) -> Plan | None:
    """The soonest plan that the plain rule finds, sooner than the one known."""
    low = soonest
    for _ in range(_STEPS):
        if best is None or low >= last_day(best):
            break
        middle = (low + last_day(best)) // 2
        plan = first_plan(problem, middle)
        if plan is None:
            low = middle + 1
        else:
            best = plan
    return best


def _sooner(problem: Problem, effort: Effort, bound: int, plan: Plan | None, say: Say) -> Season:
    """Search for a plan that ends sooner than the one known."""
    until = problem.days - 1 if plan is None else last_day(plan)
    model = ByDays(problem, until)
    model.aim_at_soonest()
    if plan is not None:
        model.start_from(plan)
    say("A sooner plan" if plan is not None else "Any plan")
    found = search(model.model, effort, lambda value, least: say(
        f"ends on day {int(value)}, not before day {max(int(least), bound)}"))
    if found.has_one:
        plan = model.read(found.solver)
    proven = found.answer in (Answer.BEST, Answer.NONE) and not found.stopped
    if found.has_one:
        bound = max(bound, ceil(found.bound - 1e-6))
    return Season(bound, plan, proven or (plan is not None and last_day(plan) == bound), found.stopped)


def _calmer(problem: Problem, aim: Aim, effort: Effort, found: Season, say: Say) -> Season:
    """The same or the due day, with fewer changes of work and an evener load."""
    assert found.plan is not None
    until = last_day(found.plan)
    if not aim.soonest and until < aim.due:
        until = min(aim.due, problem.days - 1)
    start = found.plan
    if until > last_day(start):
        start = first_plan(problem, until) or start
    model = ByDays(problem, until)
    model.aim_at_calm()
    model.start_from(start)
    say("A calmer plan")
    calm = search(model.model, effort, lambda value, _: say(f"{value / 3600:.0f}"))
    plan = model.read(calm.solver) if calm.has_one else start
    return Season(found.bound, plan, found.proven, calm.stopped)
