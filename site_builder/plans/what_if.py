"""What if: the season with something otherwise, beside the season as it stands, by the same quick rule for both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from site_builder.plans.wanted import Wants
from site_builder.plans.words import apart, day_told
from site_builder.season.problem import Able, Hand, Problem, last_day
from site_builder.season.solve import quick

NEW = "one more hand"


@dataclass(frozen=True, slots=True)
class Ends:
    """Before which day it cannot be done (None: not in these months), and when the plan found ends (None: none was)."""

    bound: int | None
    finish: int | None


def ends(problem: Problem) -> Ends:
    """Bound and quick plan of a season. Raises ``EngineMissing``."""
    bound, plan = quick(problem)
    return Ends(bound, last_day(plan) if plan is not None else None)


def changed(wants: Wants, changes: Sequence[Callable[[Problem], Problem]]) -> Problem:
    """The season with all these changes."""
    problem = wants.problem
    for change in changes:
        problem = change(problem)
    return problem


def sentence(what: str, wants: Wants, stands: Ends, then: Ends, other: Wants | None = None) -> str:
    """``Without Edda from 1 to 28 February: the last is packed on 21 May, 9 days later than as it stands; …``."""
    days = (other or wants).days
    due = (other or wants).due
    if then.bound is None:
        return f"{what}: it cannot be done within these months; that is proven."
    proven = f"before {day_told(days.on(then.bound))} it cannot be done"
    if then.bound > due:
        proven += ", so never in time"
    if then.finish is None:
        return f"{what}: no plan was found; {proven}."
    told = f"{what}: the last is packed on {day_told(days.on(then.finish))}"
    if stands.finish is not None:
        late = (days.on(then.finish) - wants.days.on(stands.finish)).days
        told += ", as it stands" if not late else f", {apart(abs(late))} {'later' if late > 0 else 'sooner'}"
    in_time = "in time" if then.finish <= due else f"{apart(then.finish - due)} late"
    return f"{told}, {in_time}; {proven}."


def one_more(problem: Problem, a_week: int, works: Sequence[str]) -> Problem:
    """The season with a new person of so many seconds a week, on the days on which anybody is in, able to do these
    works alone and to be the second pair of hands everywhere."""
    open_days = [any(hand.around[day] for hand in problem.hands) for day in range(problem.days)]
    per_day = a_week // 5 // 900 * 900
    new = Hand(NEW, tuple(per_day if here else 0 for here in open_days), tuple(open_days))
    return replace(problem, hands=(*problem.hands, new), works=tuple(
        replace(work, able=(*work.able, Able(NEW)) if work.id in works else work.able,
                helpers=(*work.helpers, NEW) if work.hands > 1 else work.helpers)
        for work in problem.works))
