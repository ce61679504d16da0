from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    wholes = [nb.parts[str(order.product)] for order in nb.orders.values() if order.product in nb.parts]
    for id_ in dict.fromkeys(str(one) for whole in wholes for one in whole.of):
        part = nb.parts.get(id_)
        if part is None or part.supplier is None or part.lead_time is not None:
            continue
        if {"lead time", "lead_time"} & set(map(str, part.asked)):
            continue
        yield Found(part.title.at, f"How long does it take from ordering until it is here: “{part.title}”?",
                    "Add `lead time:`, as `3 wk`.", id_)


RULE = Rule(
    code="lead-unsaid",
    level=Level.QUESTION,
    summary="A part that is bought for an order, and nobody has said how long it takes to come.",
    reason="The plan of the season tells by when it must be ordered; what comes too late holds up everything else.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: {title: Lantern, of: {glass: 1}}}
parts: {glass: {title: Glass, supplier: Pellmoor Glass, lead time: 6 wk}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: {title: Lantern, of: {glass: 1}}}
parts: {glass: {title: ▸Glass, supplier: Pellmoor Glass}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
""",
    check=check,
)
