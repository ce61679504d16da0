from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.entry import Entry
from site_builder.plans.broken_told import broken_told
from site_builder.plans.in_hand import plan_in_hand
from site_builder.plans.plan_file import Looked, look
from site_builder.plans.wanted import CannotPlan
from site_builder.plans.weeks import day_of
from site_builder.season.checker import Broken


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="plan-broken",
    level=Level.WARNING,
    summary="A plan of the season that does not hold any more, by the notebook as it is now.",
    reason="Who works by a plan that somebody's absence or a longer time has overtaken finds out when it is too late.",
    passes="""\
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
  ada: {name: Ada Ost, hours: 20 h/week}
=== procedures/seasons/spring-planned.yml
season: spring-planned
title: Spring hinges, planned
order: spring
date: 2026-11-24
starts: 2026-11-24
work:
  - {date: 2027-03-01, who: ada, does: punch-hinge, pieces: 12, time: 2 h}
""",
    fails="""\
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
  ada: {name: Ada Ost, hours: 20 h/week, absent: 2027-03-01..2027-03-03}
=== procedures/seasons/spring-planned.yml
season: spring-planned
title: Spring hinges, planned
order: spring
date: 2026-11-24
starts: 2026-11-24
work:
  - ▸{date: 2027-03-01, who: ada, does: punch-hinge, pieces: 12, time: 2 h}
""",
    check=check,
)
