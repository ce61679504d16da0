"""Rules on days, and on what holds in one case, that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import Case, cases, meeting
from site_builder.figures.batch_orders import calendar_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Calendar, Order
from site_builder.notebook.working_days import working_days
from site_builder.quantity import same_dimensions


def begun_late(analysis: Analysis) -> Iterator[Found]:
    for id_, order in analysis.notebook.orders.items():
        due, first = order.due, order.not_before
        if due is not None and first is not None and first.value.first > due.value.last:
            yield Found(first.at, f"Nothing may begin before {first}, and it is due on {due}.",
                        "Put right the day under `not before` or the one under `due`.", id_)


BEGUN_LATE = Rule(
    "begun-late", Level.ERROR, "An order that may not be begun before it is due.",
    "No season can be planned between a day and an earlier one; most often the year is typed wrong.",
    """\
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
✓ not before: 2026-12-01
✗ not before: ▸2027-12-01
""", begun_late,
)


_LONGEST = 200
"""A closure of more days is most often a year typed wrong."""


def calendar_shut(analysis: Analysis) -> Iterator[Found]:
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


CALENDAR_SHUT = Rule(
    "calendar-shut", Level.WARNING, "A working day told twice, or a closure of most of a year.",
    "Starts and due dates are counted in working days; a closure that never ends pushes all of them away.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
✓ calendar: {days: [Monday, Tuesday], closed: 2026-12-23..2027-01-05}
✗ calendar: {days: [Monday, ▸Monday], closed: ▸2026-12-23..2028-01-05}
""", calendar_shut,
)


def chosen_crossed(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    for order, place in analysis.index.of(Order):
        customer = shop.customers.get(order.customer) if shop is not None and order.customer is not None else None
        product = analysis.notebook.parts.get(str(order.product))
        for name, value in order.chosen.items():
            for other in (customer, product):
                meant = other.chosen.get(name) if other is not None else None
                if other is not None and meant is not None and str(meant) != str(value):
                    yield Found(
                        value.at, f"`{name}: {value}`, but “{other.title}” has `{name}: {meant}`.",
                        f"Write `{name}: {meant}`, or put right what is chosen for “{other.title}”.", place.owner_id,
                    )
                    break


CHOSEN_CROSSED = Rule(
    "chosen-crossed", Level.WARNING, "An order for another variant than its customer or its product has.",
    "The whole batch is made after it. A customer may well want another for once; then say so with a `note`.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
variants: {pattern: [harbour, deck]}
customers: {office: {title: Harbour office, chosen: {pattern: harbour}}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
customer: office
✓ chosen: {pattern: harbour}
✗ chosen: {pattern: ▸deck}
""", chosen_crossed,
)


def conditions_crossed(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for work in (own, *own.steps):
            for name, limits in work.conditions.items():
                around = [(f"“{own.title}”", own.conditions)] if work is not own else []
                around += [(f"“{nb.things[one].title}”", nb.things[one].conditions)
                           for one in (str(use.tool) for use in work.tools if not use.or_) if one in nb.things]
                for told, conditions in around:
                    wider = cases(analysis, conditions.get(name, ()))
                    for one in cases(analysis, limits):
                        against = meeting(wider, one.condition)
                        if against and all(_apart(one, other) for other in against):
                            yield Found(
                                one.written.at, f"`{name}` is `{one.written}` here, but {told} asks for "
                                f"`{against[0].written}`: no day keeps both.",
                                "Put right the one or the other.", id_,
                            )


def _apart(one: Case, other: Case) -> bool:
    if not same_dimensions(one.found.unit, other.found.unit) or one.found.rough or other.found.rough:
        return False
    over = one.low is not None and other.high is not None and one.low > other.high
    under = one.high is not None and other.low is not None and one.high < other.low
    return over or under


CONDITIONS_CROSSED = Rule(
    "conditions-crossed", Level.ERROR, "Conditions of a work that no day can keep together.",
    "The work, the step within it and the tool it is done with must all be content with the same room.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
conditions: {room temperature: 12..28 °C}
✓ steps: {do: Spray., conditions: {room temperature: 15..25 °C}}
✗ steps: {do: Spray., conditions: {room temperature: ▸32..40 °C}}
""", conditions_crossed,
)


def due_closed(analysis: Analysis) -> Iterator[Found]:
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


DUE_CLOSED = Rule(
    "due-closed", Level.WARNING, "An order that is due on a day on which nobody works.",
    "Then it must be ready the working day before, and the day that counts is not the one that is written.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
✓ due: 2027-05-14
✗ due: ▸2027-05-15
""", due_closed,
)
