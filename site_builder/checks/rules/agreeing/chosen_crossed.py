from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Order


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="chosen-crossed",
    level=Level.WARNING,
    summary="An order for another variant than its customer or its product has.",
    reason="The whole batch is made after it. A customer may well want another for once; then say so with a `note`.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
variants: {pattern: [harbour, deck]}
customers: {office: {title: Harbour office, chosen: {pattern: harbour}}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
customer: office
chosen: {pattern: harbour}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
variants: {pattern: [harbour, deck]}
customers: {office: {title: Harbour office, chosen: {pattern: harbour}}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
customer: office
chosen: {pattern: ▸deck}
""",
    check=check,
)
