from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import islice

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.due import next_due
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.notebook.model.things import Upkeep
from site_builder.notebook.working_days import working_days
from site_builder.quantity import Cadence, Each, Every

_DAY = timedelta(days=1)
_WEEK = 7
_DAILY = ("day", "working day", "morning", "evening", "shift")
_IDLE = 5
"""So many working days a machine may stand idle before its daily upkeep is called forgotten. A common working week."""


def check(analysis: Analysis) -> Iterator[Found]:
    for upkeep, place in analysis.index.of(Upkeep):
        if upkeep.date is None or upkeep.for_ or upkeep.unless is not None:
            continue
        if _is_overdue(analysis, upkeep):
            what = f"“{upkeep.do.rstrip('.')}”" if upkeep.do is not None else "This"
            yield Found(
                upkeep.date.at, f"{what} is to be done {str(upkeep.when).replace(';', ',')}, and was done last on "
                f"{upkeep.date}.",
                "Do it, and write the new date. If it was done, write when.", place.owner_id,
            )


def _is_overdue(analysis: Analysis, upkeep: Upkeep) -> bool:
    if upkeep.date is None or not isinstance(upkeep.when, ParsedValue) or not isinstance(upkeep.when.value, Cadence):
        return False
    last, today = upkeep.date.value.last, analysis.today
    if last >= today:
        return False
    items = upkeep.when.value.items
    if any(isinstance(item, Each) and _missed(analysis, item.noun, last) for item in items):
        return True
    due = next_due(upkeep.date, upkeep.when)
    if due is None or due >= today or due == last:  # what comes round within a day has no date
        return False
    if due - last < timedelta(days=_WEEK):
        return _worked(analysis, due, today - _DAY, _IDLE)
    is_rough = any(isinstance(item, Every) and item.rough for item in items)
    grace = (due - last) / 4 if is_rough else timedelta()  # `about 4 wk` may be five
    return today - due > grace


def _missed(analysis: Analysis, noun: str, last: date) -> bool:
    """Whether a whole week, month or year of work has gone by without it, or as many days as a machine may stand."""
    today = analysis.today
    if noun in _DAILY:
        return _worked(analysis, last + _DAY, today - _DAY, _IDLE)
    if noun == "week":
        monday = today - timedelta(days=today.weekday())
        return _worked(analysis, last + timedelta(days=_WEEK - last.weekday()), monday - _DAY, 1)
    if noun == "month":
        next_first = date(last.year + last.month // 12, last.month % 12 + 1, 1)
        return _worked(analysis, next_first, today.replace(day=1) - _DAY, 1)
    return noun == "year" and last.year + 1 < today.year


def _worked(analysis: Analysis, begin: date, end: date, days: int) -> bool:
    """Whether there were so many working days from the one to the other."""
    shop = analysis.notebook.shop
    worked = working_days(shop.calendar if shop is not None else None, begin, end)
    return next(islice(worked, days - 1, None), None) is not None


RULE = Rule(
    code="upkeep-overdue",
    level=Level.WARNING,
    summary="Upkeep that should long have been done again.",
    reason="A slack spring and a clogged filter make no noise. The day they are noticed is the day the piece is "
    "spoilt, or a hand is hurt.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
upkeep:
  - {do: Grease both bearings., when: every 6 mo, date: 2026-06-04}
  - {do: Blow out the extraction., when: each week, date: 2026-11-16}
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
upkeep:
  - {do: Grease both bearings., when: every 6 mo, date: ▸2026-05-04}
  - {do: Blow out the extraction., when: each week, date: ▸2026-11-12}
""",
    check=check,
)
