from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Order
from site_builder.notebook.way import span


def check(analysis: Analysis) -> Iterator[Found]:
    for order, place in analysis.index.of(Order):
        whole = span(order.pieces) if order.pieces is not None else None
        told = [share.pieces for share in order.split if share.pieces is not None]
        shares = [ends for one in told if (ends := span(one)) is not None]
        least = sum(ends[0] for ends in shares)
        if order.pieces is not None and whole is not None and shares and least > whole[1]:
            yield Found(
                order.pieces.at, f"The shares under `split` come to {float(least):g}, and {order.pieces} are ordered.",
                f"Write `pieces: {float(least):g}`, or put right the shares.", place.owner_id,
            )


RULE = Rule(
    code="split-over",
    level=Level.ERROR,
    summary="An order whose shares are more than is ordered.",
    reason="Either too many are made of one kind, or the whole is told too small and too little is bought.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: Lantern}
variants: {pattern: [harbour, deck]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
pieces: 260
split: [{chosen: {pattern: deck}, pieces: 60}, {chosen: {pattern: harbour}, pieces: 200}]
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: Lantern}
variants: {pattern: [harbour, deck]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
pieces: ▸100
split: [{chosen: {pattern: deck}, pieces: 60}, {chosen: {pattern: harbour}, pieces: 200}]
""",
    check=check,
)
