from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.batch_orders import calendar_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Order
from site_builder.notebook.working_days import working_days


def check(analysis: Analysis) -> Iterator[Found]:
    for order, place in analysis.index.of(Order):
        calendar = calendar_of(analysis.notebook, order)
        if order.due is None or calendar is None or not (calendar.days or calendar.closed):
            continue
        day = order.due.value
        if day.first == day.last and not any(working_days(calendar, day.first, day.last)):
            yield Found(
                order.due.at, f"{order.due} is a {day.first:%A} on which nobody works by the calendar.",
                "Write the working day on which it must be ready, or put right the calendar.", place.owner_id,
            )


RULE = Rule(
    code="due-closed",
    level=Level.WARNING,
    summary="An order that is due on a day on which nobody works.",
    reason="Then it must be ready the working day before, and the day that counts is not the one that is written.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: ▸2027-05-15
""",
    check=check,
)
