from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Calendar

_LONGEST = 200
"""A closure of more days is most often a year typed wrong."""


def check(analysis: Analysis) -> Iterator[Found]:
    for calendar, place in analysis.index.of(Calendar):
        for number, day in enumerate(calendar.days):
            if day in calendar.days[:number]:
                yield Found(day.at, f"{day} stands twice among the working days.",
                            f"Take one {day} out, or write the day that was meant.", place.owner_id)
        for span in calendar.closed:
            length = (span.value.last - span.value.first).days + 1
            if length > _LONGEST:
                yield Found(
                    span.at, f"`{span}` closes the shop for {length} days on end.",
                    "Put right the year of the first or the last day; one day alone is written as `2027-05-06`.",
                    place.owner_id,
                )


RULE = Rule(
    code="calendar-shut",
    level=Level.WARNING,
    summary="A working day told twice, or a closure of most of a year.",
    reason="Starts and due dates are counted in working days; a closure that never ends pushes all of them away.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
calendar: {days: [Monday, Tuesday], closed: 2026-12-23..2027-01-05}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
calendar: {days: [Monday, ▸Monday], closed: ▸2026-12-23..2028-01-05}
""",
    check=check,
)
