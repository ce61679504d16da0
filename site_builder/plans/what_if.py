"""What if: the season with something otherwise, beside the season as it stands, by the same quick rule for both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.fits import fits
from site_builder.plans.wanted import Asked, Wants, kinds, wants
from site_builder.plans.words import apart, day_told
from site_builder.season.narrow import machine_down, taught, without
from site_builder.season.problem import Able, Hand, Problem, last_day
from site_builder.season.solve import quick

NEW = "one more hand"
Change = Callable[[Problem], Problem]


@dataclass(frozen=True, slots=True)
class Ends:
    """Before which day it cannot be done (None: not in these months), and when the plan found ends (None: none was)."""

    bound: int | None
    finish: int | None


def ends(problem: Problem) -> Ends:
    """Bound and quick plan of a season. Raises ``EngineMissing``."""
    bound, plan = quick(problem)
    return Ends(bound, last_day(plan) if plan is not None else None)


class CannotAsk(Exception):
    """What is to be otherwise names somebody or something that is not there: a sentence that says what there is."""


@dataclass(frozen=True, slots=True)
class Otherwise:
    """What is to be otherwise: who is ``gone``, which machine is ``down``, ``since`` and ``until`` which day; other
    ``pieces`` or another ``due`` day; ``more`` seconds a week of one more hand; who is ``taught`` which skill."""

    gone: str | None = None
    down: str | None = None
    since: date | None = None
    until: date | None = None
    pieces: int | None = None
    due: date | None = None
    more: int | None = None
    taught: tuple[str, str] | None = None


def beside(known: FigureInputs, order: str, otherwise: Otherwise) -> tuple[str, str]:
    """A sentence on the season as it stands, and one on it with something otherwise.

    Raises ``CannotAsk``, ``CannotPlan``, ``EngineMissing``, ``Circle``.
    """
    stands = wants(known, order)
    new_order = otherwise.pieces is not None or otherwise.due is not None
    other = wants(known, order, Asked(otherwise.pieces, otherwise.due)) if new_order else stands
    changes, told = _changes(known, other, otherwise)
    told += [f"{otherwise.pieces} pieces"] if otherwise.pieces is not None else []
    told += [f"due on {day_told(otherwise.due)}"] if otherwise.due is not None else []
    if not told:
        raise CannotAsk("Nothing is otherwise.")
    problem = other.problem
    for change in changes:
        problem = change(problem)
    fits(known, other, problem)
    base = ends(stands.problem)
    what = " and ".join(told)
    return (sentence("As it stands", stands, base, base).replace(", as it stands", ""),
            sentence(what[:1].upper() + what[1:], stands, base, ends(problem), other))


def _changes(known: FigureInputs, other: Wants, otherwise: Otherwise) -> tuple[list[Change], list[str]]:
    """The changes, and each in words."""
    nb, days, end = known.notebook, other.days, other.problem.days - 1
    first = max(days.number(otherwise.since), 0) if otherwise.since is not None else 0
    last = min(days.number(otherwise.until), end) if otherwise.until is not None else end
    if last < first:
        raise CannotAsk("The last day lies before the first, or outside the season.")
    changes: list[Change] = []
    told: list[str] = []
    when = f"from {day_told(days.on(first))} to {day_told(days.on(last))}"
    gone, down, more = otherwise.gone, otherwise.down, otherwise.more
    if gone is not None:
        if gone not in nb.living:
            raise CannotAsk(f"`{gone}` is nobody in skills/people.yml: {', '.join(nb.living) or 'it is empty'}.")
        changes.append(lambda p: without(p, gone, first, last))
        told.append(f"without {nb.people[gone].name} {when}")
    if down is not None:
        machines = [machine.id for machine in other.problem.machines]
        if down not in machines:
            raise CannotAsk(f"`{down}` is no machine that this order meets: {', '.join(machines) or 'none'}.")
        changes.append(lambda p: machine_down(p, down, first, last))
        told.append(f"without “{nb.tools[down].title}” {when}")
    if more is not None:
        changes.append(lambda p: one_more(p, more, [work.id for work in p.works]))
        told.append(f"with one more who can do everything, {more / 3_600:g} h a week")
    if otherwise.taught is not None:
        person, skill = otherwise.taught
        works = dict(kinds(other, known)).get(skill)
        if person not in nb.living or works is None:
            raise CannotAsk(f"Somebody is taught who is one of {', '.join(nb.living)}, and a skill of "
                            f"{', '.join(skill for skill, _ in kinds(other, known))}.")
        changes.append(lambda p: taught(p, person, works, first))
        told.append(f"with {nb.people[person].name} doing “{nb.skills[skill].title}” alone from "
                    f"{day_told(days.on(first))} on, the lessons not counted")
    return changes, told


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
