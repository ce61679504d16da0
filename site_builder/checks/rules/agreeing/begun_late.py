from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, order in analysis.notebook.orders.items():
        due, first = order.due, order.not_before
        if due is not None and first is not None and first.value.first > due.value.last:
            yield Found(first.at, f"Nothing may begin before {first}, and it is due on {due}.",
                        "Put right the day under `not before` or the one under `due`.", id_)


RULE = Rule(
    code="begun-late",
    level=Level.ERROR,
    summary="An order that may not be begun before it is due.",
    reason="No season can be planned between a day and an earlier one; most often the year is typed wrong.",
    passes="""\
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
not before: 2026-12-01
""",
    fails="""\
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
not before: ▸2027-12-01
""",
    check=check,
)
