"""Planning a season: bound, plan, how often it holds, what is narrow, what cannot all be kept, what would help."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.calendar import person_days
from site_builder.plans.fits import fits
from site_builder.plans.spread import observed_spread
from site_builder.plans.wanted import Wants, kinds
from site_builder.plans.words import day_told
from site_builder.season.chance import Luck, Played, play
from site_builder.season.checker import check
from site_builder.season.engine import Effort
from site_builder.season.narrow import Narrow, Wish, narrow, smallest
from site_builder.season.problem import Able, Hand, Problem, Work
from site_builder.season.relax import Loose, day_of
from site_builder.season.solve import Aim, Season, season
from site_builder.season.spans import Days as Span
from site_builder.season.spans import most_pieces, spans

Say = Callable[[str], None]
_FEWER = 6
"""Rounds in which the number of pieces that could be done is halved in on."""
_HOURS_MORE = (2, 4, 8, 12)


@dataclass(frozen=True)
class Made:
    """A season planned. ``latest``: of each work the last day on which it may begin, None where it is too late."""

    wants: Wants
    season: Season
    narrow: tuple[Narrow, ...]
    cannot: tuple[str, ...]
    ways: tuple[str, ...]
    played: Played | None
    latest: Mapping[str, int]
    on: date


def make(known: FigureInputs, wanted: Wants, effort: Effort | None, say: Say) -> Made:
    """Plan. After Ctrl-C it is the best plan so far, without what had not been asked yet. Raises ``CannotPlan``,
    ``EngineMissing``, ``Circle``, and ``KeyboardInterrupt`` where there is no plan yet."""
    fits(known, wanted, wanted.problem)
    shop = known.notebook.shop
    aims = tuple(map(str, shop.planning.aims)) if shop is not None and shop.planning is not None else ()
    soonest = not aims or aims[0] == "soonest"
    found = season(wanted.problem, Aim(wanted.due, soonest, effort), say)
    if found.plan is not None and (broken := check(wanted.problem, found.plan)):
        raise AssertionError(f"the plan breaks {broken[0]}")  # a defect of ours, never the shop's
    told = Made(wanted, found, (), (), (), None, {}, known.today)
    try:
        told = replace(told, latest=latest(wanted.problem, wanted.due))
        if found.in_time(wanted.due) is False:
            say("Which wishes cannot all be kept")
            told = replace(told, cannot=smallest(wanted.problem, wanted.due, tuple(wishes(known, wanted))) or ())
        say("What is narrow")
        told = replace(told, narrow=narrow(wanted.problem, [ids for _, ids in kinds(wanted, known)], found.moment))
        if found.in_time(wanted.due) is not True:
            say("What would help")
            told = replace(told, ways=tuple(ways_out(known, wanted, found, told.narrow)))
        if found.plan is not None:
            say("A thousand plays")
            luck = Luck(observed_spread(known, wanted), scrap=wanted.scrap, spare=wanted.spare)
            told = replace(told, played=play(wanted.problem, found.plan, luck))
    except KeyboardInterrupt:
        if found.plan is None:
            raise
        told = replace(told, season=replace(found, stopped=True))
    return told


# ---------------------------------------------------------------------- what cannot all be kept


def wishes(known: FigureInputs, wanted: Wants) -> list[Wish]:
    """The wishes of a season, those first that one would let go most easily."""
    nb, days = known.notebook, wanted.days
    found: list[Wish] = []
    for id_, person in nb.living.items():
        if person.absent:
            there = person_days(days, id_, person.with_changes(absent=())).hand
            away = ", ".join(str(one) for one in person.absent)
            found.append(Wish(f"{person.name} is away {away}", partial(_present, there)))
    found += [Wish(f"no more than one place at “{nb.tools[machine.id].title}”", partial(_many, machine.id))
              for machine in wanted.problem.machines]
    found.append(Wish("nobody over the daily noise, vibration and lifting", _deaf))
    found += [Wish(f"only who may now does “{nb.skills[skill].title}”", partial(_anybody, ids))
              for skill, ids in kinds(wanted, known) if skill in nb.skills]
    for id_, person in nb.living.items():
        weekly = f"{person.hours}" if person.hours is not None else "their hours"
        found.append(Wish(f"{person.name} works {weekly}", partial(_longer, id_)))
    found.append(Wish(f"{wanted.pieces} pieces", _few))
    return found


def _present(there: Hand, problem: Problem) -> Problem:
    return replace(problem, hands=tuple(there if one.id == there.id else one for one in problem.hands))


def _many(machine: str, problem: Problem) -> Problem:
    return replace(problem, machines=tuple(
        replace(one, seconds=tuple(9 * s for s in one.seconds)) if one.id == machine else one
        for one in problem.machines))


def _deaf(problem: Problem) -> Problem:
    return replace(problem, works=tuple(replace(work, doses={}) for work in problem.works))


def _few(problem: Problem) -> Problem:
    return replace(problem, works=tuple(replace(work, pieces=min(work.pieces, 1)) for work in problem.works),
                   links=tuple(replace(link, there=0) for link in problem.links))


def _anybody(ids: tuple[str, ...], problem: Problem) -> Problem:
    everybody = tuple(Able(hand.id) for hand in problem.hands)
    return replace(problem, works=tuple(
        replace(work, able=everybody) if work.id in ids else work for work in problem.works))


def _longer(person: str, problem: Problem) -> Problem:
    return replace(problem, hands=tuple(
        replace(hand, seconds=tuple(57_600 if s else 0 for s in hand.seconds)) if hand.id == person else hand
        for hand in problem.hands))


# ---------------------------------------------------------------------- what would help


def ways_out(known: FigureInputs, wanted: Wants, found: Season, tight: tuple[Narrow, ...]) -> list[str]:
    """Up to three ways out: a later day, fewer pieces, more hours where it is narrow; each solved again, by hours."""
    told: list[str] = []
    if found.finish is not None:
        told.append(f"Later: all of it by {day_told(wanted.days.on(found.finish))}.")
    fewer = most_possible(wanted)
    if fewer is not None and fewer < wanted.pieces:
        told.append(f"Fewer: about {fewer} of them in time, as far as hours tell.")
    for one in tight:
        person = one.more.person
        if person is not None:
            for hours in _HOURS_MORE:
                more = replace(wanted.problem, hands=tuple(
                    replace(hand, seconds=tuple(s + hours * 3_600 * 7 // 5 // 7 if s else 0 for s in hand.seconds))
                    if hand.id == person else hand for hand in wanted.problem.hands))
                if Loose(more.until(wanted.due)).share(wanted.due) is not None:
                    name = known.notebook.people[person].name
                    told.append(f"More hours: {hours} h a week more of {name}, as far as hours tell.")
                    return told[:3]
    return told[:3]


def most_possible(wanted: Wants) -> int | None:
    """How many of the ordered pieces could be done in time, by the loosened season; None where not one."""
    low, high = 0.0, 1.0
    for _ in range(_FEWER):
        middle = (low + high) / 2
        works = tuple(replace(work, pieces=max(int(work.pieces * middle), 1)) for work in wanted.problem.works)
        links = tuple(replace(link, there=int(link.there * middle)) for link in wanted.problem.links)
        smaller = replace(wanted.problem, works=works, links=links)
        if Loose(smaller.until(wanted.due)).share(wanted.due) is None:
            high = middle
        else:
            low = middle
    return int(wanted.pieces * low) if low else None


# ---------------------------------------------------------------------- the latest day


def latest(problem: Problem, due: int) -> Mapping[str, int]:
    """Of each work the last day on which it may begin if all is to be done by ``due``: a day later is too late even
    if everybody who can did nothing else. Works that can no longer be in time are left out."""
    found = {}
    for id_, days in spans(problem, due).items():
        day = _latest(problem, problem.work(id_), days)
        if day is not None:
            found[id_] = day
    return found


def _latest(problem: Problem, work: Work, days: Span) -> int | None:
    left = work.pieces
    for day in range(min(days.last, problem.days - 1), days.first - 1, -1):
        if work.lots is not None and day not in work.lots.days:
            continue
        if not work.hands:
            left -= work.lots.most or left if work.lots is not None else left
        for able in work.able:
            if able.first <= day <= able.last:
                left -= most_pieces(work, problem.hand(able.person).seconds[day])
        if left <= 0:
            return day
    return None


def bound_day(problem: Problem) -> int | None:
    """The day before which it cannot be done."""
    moment = Loose(problem).earliest()
    return None if moment is None else day_of(moment)
