"""Rules on plans, revisions and signers that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.signers import Signed, signers
from site_builder.checks.rules.possible.figures_and_days import YOUNGEST
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import cell_place, limits_of
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Remedy
from site_builder.notebook.model.limit import Limit
from site_builder.plans.broken_told import broken_told
from site_builder.plans.in_hand import plan_in_hand
from site_builder.plans.plan_file import Looked, look
from site_builder.plans.wanted import CannotPlan
from site_builder.plans.weeks import day_of
from site_builder.quantity import Bounds
from site_builder.season.checker import Broken


def plan_broken(analysis: Analysis) -> Iterator[Found]:
    """Only the plan in hand: earlier ones stay for comparison, and need not hold any more."""
    season = plan_in_hand(analysis)
    if season is None or season.order not in analysis.notebook.orders or not season.work:
        return
    order = analysis.notebook.orders[str(season.order)]
    if order.due is not None and order.due.value.last < analysis.today:
        return  # delivered or not, it is past
    anew = f"Plan anew: `benchlore season plan {season.order}`."
    try:
        looked = look(analysis, season)
    except CannotPlan as problem:
        yield Found(season.order.at, f"This plan cannot be looked through any more: {problem}", anew, str(season.id))
        return
    for line in looked.unread:
        yield Found(line.at, "This line of the plan names work, people or a day that the notebook does not have.",
                    anew, str(season.id))
    told = set()
    for one in looked.broken:
        words = broken_told(analysis, looked.wants, one)
        if words not in told:
            told.add(words)
            yield Found(_line(looked, one).at, f"The plan does not hold any more. {words}", anew, str(season.id))


def _line(looked: Looked, one: Broken) -> Entry:
    """The line of the plan that breaks it; the plan itself where no line does."""
    planned = looked.wants.means.get(one.work)
    same = [line for line in looked.season.work if looked.wants.days.number(day_of(line)) == one.day]
    for line in same:
        if (planned is None or line.does == planned.procedure) and line.who == one.who:
            return line
    return next((line for line in same if line.who == one.who or (planned and line.does == planned.procedure)),
                looked.season)


PLAN_BROKEN = Rule(
    "plan-broken", Level.WARNING, "A plan of the season that does not hold any more, by the notebook as it is now.",
    "Who works by a plan that somebody's absence or a longer time has overtaken finds out when it is too late.",
    """\
=== procedures/shop.yml
shop: hinges
title: Hinges
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday], hours: 8 h/day}
products: {hinge: Hinge}
=== procedures/hinge/punch-hinge.yml
procedure: punch-hinge
title: Punch the hinge
time: {each: 10 min}
steps: Punch it.
=== procedures/orders/spring.yml
order: spring
title: Spring hinges
product: hinge
pieces: 12
due: 2027-03-05
=== skills/people.yml
people:
✓   ada: {name: Ada Ost, hours: 20 h/week}
✗   ada: {name: Ada Ost, hours: 20 h/week, absent: 2027-03-01..2027-03-03}
=== procedures/seasons/spring-planned.yml
season: spring-planned
title: Spring hinges, planned
order: spring
date: 2026-11-24
starts: 2026-11-24
work:
  - ▸{date: 2027-03-01, who: ada, does: punch-hinge, pieces: 12, time: 2 h}
""", plan_broken,
)


_OTHER = {"below": "above", "above": "below"}
_LEADS = {"below": "min", "above": "max"}


def remedy_sideless(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        for side in ("below", "above"):
            remedies: list[tuple[Remedy, ...]] = [getattr(limit, side)]
            told = [reckoning(analysis).bounds_of(limit)]
            for _, cell in limit.cells():
                if cell is not limit:
                    remedies.append(getattr(cell, side))
                    told.append(reckoning(analysis).bounds_of(cell))
            for remedy, figures in zip(remedies, told, strict=True):
                if remedy and figures and all(one is not None and not _has(one, side) for one in figures):
                    yield Found(
                        _at(remedy), f"`{side}` never comes: `{_written(limit)}` has no limit on that side.",
                        f"Move it to `{_OTHER[side]}`, or add `{_LEADS[side]}` and its figure to the limit.",
                        cell_place(analysis, limit, place).owner_id,
                    )


def _at(remedy: tuple[Remedy, ...]) -> At:
    return remedy[0].at


def _written(limit: Limit) -> str:
    return str(limit.written) if limit.written is not None else "the limit"


def _has(found: Bounds, side: str) -> bool:
    """Whether it may be missed on this side; a bare figure, or an aim, may be missed on both."""
    if not found.limited or found.aim_low is not None:
        return True
    return (found.low is not None or found.low_untold) if side == "below" else (
        found.high is not None or found.high_untold
    )


REMEDY_SIDELESS = Rule(
    "remedy-sideless", Level.ERROR, "What to do on a side on which there is no limit.",
    "Nobody will ever do it: most often `below` and `above`, or `min` and `max`, were swapped.",
    """\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
✓ limits: {heat of the bath: {is: max 490 °C, above: {do: Burner down., then: again}}}
✗ limits: {heat of the bath: {is: max 490 °C, below: ▸{do: Burner down., then: again}}}
""", remedy_sideless,
)


def revisions_backward(analysis: Analysis) -> Iterator[Found]:
    for id_, own in analysis.notebook.procedures.items():
        dates = [one.date for one in own.revisions if one.date is not None]
        for before, after in pairwise(dates):
            if after.value.last < before.value.first:
                yield Found(
                    after.at, f"This revision of {after} stands after the one of {before}.",
                    "Put right the day; where both are right, put the newest last.", id_,
                )


REVISIONS_BACKWARD = Rule(
    "revisions-backward", Level.WARNING, "Revisions whose days run backward.",
    "The newest stands last. A day out of order is most often a year typed wrong.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions:
✓   - {date: 2006-03-20, what: Both eyes in one setting.}
✓   - {date: 2026-05-12, what: Timed over 24 pieces.}
✗   - {date: 2026-03-20, what: Both eyes in one setting.}
✗   - {date: ▸2020-05-12, what: Timed over 24 pieces.}
""", revisions_backward,
)


def signed_absent(analysis: Analysis) -> Iterator[Found]:
    for one in signers(analysis):
        absent = "" if one.told else _absent(one)
        if absent:
            yield Found(
                one.who.at, f"{one.person.name} {absent}, and this is signed on {one.date}.",
                f"Name who did it instead of `{one.who}`, or put right the day.", one.owner,
            )


def _absent(one: Signed) -> str:
    person, day = one.person, one.date.value
    if person.born is not None and day.last.year < person.born.value.first.year + YOUNGEST:
        return ""  # not even born: that is told as an error
    if person.joined is not None and day.last < person.joined.value.first:
        return f"joined only in {person.joined}"
    if person.left is not None and day.first > person.left.value.last:
        return f"left in {person.left}"
    return ""


SIGNED_ABSENT = Rule(
    "signed-absent", Level.WARNING, "Something signed on a day on which whoever signs was not in the shop.",
    "Either the day or the name is wrong, and whoever wants to ask one day will ask the wrong one.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
✓ revisions: {date: 1990-03-20, who: havel, what: Both eyes in one setting.}
✗ revisions: {date: 2006-03-20, who: ▸havel, what: Both eyes in one setting.}
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
""", signed_absent,
)


def signed_unborn(analysis: Analysis) -> Iterator[Found]:
    for one in signers(analysis):
        born = one.person.born
        if born is not None and one.date.value.last.year < born.value.first.year + YOUNGEST:
            yield Found(
                one.date.at, f"{one.person.name} was born {born} and cannot have signed this on {one.date}.",
                f"Put right the day, name who did it instead of `{one.who}`, or put right `born` of {one.person.name}.",
                one.owner,
            )


SIGNED_UNBORN = Rule(
    "signed-unborn", Level.ERROR, "A day on which whoever signs was not born yet, or under ten.",
    "A page that a child signed was signed by somebody else, and who that was will be asked one day.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
✓ revisions: {date: 2006-03-20, who: josk, what: Both eyes in one setting.}
✗ revisions: {date: ▸1976-03-20, who: josk, what: Both eyes in one setting.}
=== skills/people.yml
people:
  josk: {name: Josk, born: 1979, joined: 1996}
""", signed_unborn,
)
